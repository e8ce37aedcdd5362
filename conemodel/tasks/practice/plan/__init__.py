"""A plan of practice: what is due today, in which order, how long it takes, and what is mixed up."""
