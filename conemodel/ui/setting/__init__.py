"""The page Set the cone."""
