"""The job card: what is asked of a hub in hand, in the order of the bench, and what was answered."""
