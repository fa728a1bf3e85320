"""Axlewright: from an oil spot at a wheel to verdicts, shop sheets and steps."""

import os

# Before numpy is imported: small matrices gain nothing from several cores, and threads that wait for each other keep all
# of them busy. On a machine with anything else to do it cost three times the time.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

VERSION = "0.1.0"
