"""Many hubs: how far a rule of thumb carries over a whole population."""
