"""The tests; each room here mirrors one of the package."""
