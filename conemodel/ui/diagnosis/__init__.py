"""The page Check a hub."""
