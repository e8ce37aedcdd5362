"""A lesson told to a class, step by step."""
