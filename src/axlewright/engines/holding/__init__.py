"""Holding the machine: supports, jack, crib, ground, wheel."""
