"""A real hub: what was counted and felt on it, fitted, kept and set beside practice."""
