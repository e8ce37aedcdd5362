"""Loads, torque, life and rocking as charts, rows and text."""
