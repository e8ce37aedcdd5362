"""Results in, pictures and tables out; nothing is solved here."""
