"""Axlewright: from an oil spot at a wheel to verdicts, shop sheets and steps."""

VERSION = "0.1.0"
