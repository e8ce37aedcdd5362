"""The form in which somebody's own hub is entered."""
