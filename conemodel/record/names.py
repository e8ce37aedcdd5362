"""The name a person types, under which records are kept."""

from conemodel.base.errors import InputProblems, Problem

LONGEST_NAME = 60
"""Longest name that is kept [characters]."""


def clean_name(name: str | None) -> str | None:
    """Return a typed name without outer blanks, or None.

    Raises:
        InputProblems: the name is too long or does not print.
    """
    text = " ".join((name or "").split())
    if len(text) > LONGEST_NAME or not text.isprintable():
        limit = f"must be at most {LONGEST_NAME} printable characters"
        raise InputProblems([Problem(where="name", value=text[:LONGEST_NAME], limit=limit)])
    return text or None
