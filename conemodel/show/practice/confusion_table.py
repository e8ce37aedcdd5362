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
    caption = f"{ASKED.get(found.question, found.question)}: what you said against what was true"
    return Table((said, *map(count, found.answers)), found.answers, caption=caption)


def _shown(count: int, *, right: bool) -> str:
    """Return a count; what was right has a sign, so that the diagonal is seen."""
    return f"{count} ✓" if right and count else str(count)


def confusion_words(found: Confusions) -> str:
    """Return what was mixed up most, in a sentence.

    A tie is told by what stands first in the order of the question.
    """
    pairs = [(said, truth) for said in found.answers for truth in found.answers if said != truth]
    said, truth = max(pairs, key=lambda pair: found.counts[pair])
    if not found.wrong:
        return f"{found.named} hubs named, all as they were."
    often = found.counts[said, truth]
    times = "once" if often == 1 else f"{often} times"
    return f"{found.wrong} of {found.named} named wrongly; most often {said} was said where it was {truth}: {times}."
