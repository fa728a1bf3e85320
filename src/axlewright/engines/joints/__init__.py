"""Bolts and joints: threads, strength, torque and preload, stripping, order and tools."""
