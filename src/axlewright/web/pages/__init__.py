"""One module a room."""
