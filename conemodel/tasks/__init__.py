"""What a person comes to do: predict, find the window, study a sweep."""
