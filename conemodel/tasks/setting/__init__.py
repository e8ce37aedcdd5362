"""Predict a setting: five stages, good range, verdict, what it rests on."""
