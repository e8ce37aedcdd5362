"""Equations put together until the forces balance: pair equilibrium, free play, the five stages."""
