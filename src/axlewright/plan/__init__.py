"""A trouble in, a pack out."""
