"""Work in hand: which step card a trouble is worked by, how far it came, and what falls due after it."""
