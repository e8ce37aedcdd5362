"""Published values beside what is computed now, and what the model leaves out."""
