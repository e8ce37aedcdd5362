"""The pages a person works with."""
