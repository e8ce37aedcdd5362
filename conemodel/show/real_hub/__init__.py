"""A real hub in words, in a chart, and as a page to print."""
