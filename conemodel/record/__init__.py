"""What must outlast the program: one SQLite file, with a table for each kind of record."""
