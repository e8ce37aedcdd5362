"""A real hub: what was counted, felt and measured on it, and what follows for hub and hand."""
