"""A predicted setting as chart, rows, text and sheet."""
