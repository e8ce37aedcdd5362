"""The practice bench: a hub with hidden numbers, what hands can do to it, and what they feel."""
