"""Tests that drive the real page."""
