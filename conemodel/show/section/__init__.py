"""The hub in section, drawn to scale."""
