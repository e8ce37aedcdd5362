"""How far the shell moves without force, stop to stop."""
