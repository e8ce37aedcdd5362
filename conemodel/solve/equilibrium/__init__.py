"""Balance of forces of one pair of rows, or of many at once."""
