"""What was said of hubs against what was true, as a table."""

from conemodel.base.table import Column, Table
from conemodel.tasks.practice.plan.confusions import Confusions

ASKED = {"name": "Loose, right or tight", "flex": "Play or flex", "fault": "What no setting cures"}
"""What each question is about, for a heading."""


def confusion_table(found: Confusions) -> Table[str]:
    """Return the answers to one question: a line for what was said, a column for what was true, each counted."""

    def count(truth: str) -> Column[str]:
        return Column(
            lambda said: _shown(found.counts[said, truth], right=said == truth), page=f"was {truth}"
        )

    said: Column[str] = Column(lambda answer: f"said {answer}", page="")
    return Table((said, *map(count, found.answers)), found.answers, caption=confusion_heading(found))


def confusion_heading(found: Confusions) -> str:
    """Return what the table is of."""
    return f"{ASKED.get(found.question, found.question)}: what you said against what was true"


def _shown(count: int, *, right: bool) -> str:
    """Return a count; what was right has a sign, so that the diagonal is seen."""
    return f"{count} ✓" if right and count else str(count)


def confusion_words(found: Confusions) -> str:
    """Return how many were named wrongly, and what was mixed up most where one pair was."""
    pairs = [(said, truth) for said in found.answers for truth in found.answers if said != truth]
    often = max(found.counts[pair] for pair in pairs)
    most = [pair for pair in pairs if found.counts[pair] == often]
    if not found.wrong:
        return f"{found.named} named, all as they were."
    wrong = f"{found.wrong} of {found.named} named wrongly"
    if len(most) > 1:
        return f"{wrong}."
    (said, truth), times = most[0], {1: "once", 2: "twice"}.get(often, f"{often} times")
    return f"{wrong}; most often {said} was said where it was {truth}: {times}."
