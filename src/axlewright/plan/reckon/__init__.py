"""Which numbers feed which engine, section by section; names in, names and margins out."""
