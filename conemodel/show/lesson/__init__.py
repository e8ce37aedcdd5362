"""A lesson on the wall, as slides and as a handout."""
