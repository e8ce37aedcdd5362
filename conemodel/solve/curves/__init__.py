"""Properties of a hub over its end play."""
