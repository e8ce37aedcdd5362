"""Practice as charts."""
