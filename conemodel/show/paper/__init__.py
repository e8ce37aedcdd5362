"""Sheets of paper drawn by matplotlib: their sizes, words that fit them, and how they become files."""
