"""The sections of a job card: tables of steps, in the order of the bench.

What they ask is common practice, no source.
"""
