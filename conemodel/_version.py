"""The version, written here and nowhere else."""

__version__ = "2.0.0"
