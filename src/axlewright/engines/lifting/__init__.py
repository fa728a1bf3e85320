"""Lifting the drive: how it hangs, what slings and hoist must hold, the saddle on forks."""
