"""A measured hand in words, as a table, and over time."""
