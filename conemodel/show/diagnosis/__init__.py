"""A checked hub as chart, text and JSON."""
