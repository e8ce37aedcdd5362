"""Rows of a job card on a page that ask nothing."""

from typing import Any

from conemodel.tasks.job_card.card import Card
from conemodel.tasks.job_card.steps import STEPS
from conemodel.tasks.job_card.turn_left import measured_words


def plain_row(name: str, kind: str) -> dict[str, Any]:
    """Return a row that asks nothing."""
    return {
        "id": name, "step": "", "words": "", "hint": "", "caution": "", "kind": kind,
        "optional": False, "pictured": "", "torques": False, "limits": {}, "cells": [],
    }  # fmt: skip


def measured_row(card: Card) -> dict[str, Any]:
    """Return the row that says what was measured, and where the hub can be measured."""
    step = STEPS["measured"]
    said = measured_words(card) or "Not measured yet."
    return plain_row(step.name, step.name) | {"words": step.words, "said": said}
