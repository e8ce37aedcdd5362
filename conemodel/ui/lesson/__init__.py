"""The page Demonstrate."""
