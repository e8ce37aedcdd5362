"""My hand: how small a difference it tells, and to which side it leans."""
