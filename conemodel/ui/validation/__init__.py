"""The page Method."""
