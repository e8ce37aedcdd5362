"""The page Many hubs."""
