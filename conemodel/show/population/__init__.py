"""A study of many hubs as charts, rows and text."""
