"""The yard as pages: server-rendered, without a script, bound to loopback."""
