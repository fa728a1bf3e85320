"""What the trade knows, as rows of TOML with their source."""
