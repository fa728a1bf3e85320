"""One module for each sheet: from workings, rows and records to blocks."""
