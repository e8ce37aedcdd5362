"""What an exercise asked for, over all its hubs: which of them met it, and which did not."""

from dataclasses import dataclass

from conemodel.tasks.practice.marking import ExerciseMark

NO_TIGHT_AS_RIGHT = "no tight hub was called right"


@dataclass(frozen=True, slots=True, kw_only=True)
class Needed:
    """One thing that had to be.

    Attributes:
        label: what, in words.
        of: how many hubs it was asked of, None for a rule on the round as a whole.
        missed: numbers of the hubs that did not meet it, from 0.
    """

    label: str
    of: int | None
    missed: tuple[int, ...]

    @property
    def words(self) -> str:
        """Whether it was so: yes or no, of several hubs on how many; and which did not meet it.

        >>> Needed(label="the locknut is tight", of=1, missed=()).words
        'yes'
        >>> Needed(label="the cone stands at first touch", of=4, missed=(2, 3)).words
        '2 of 4; not hub 3, hub 4'
        >>> Needed(label=NO_TIGHT_AS_RIGHT, of=None, missed=(2,)).words
        'no: hub 3'
        """
        which = ", ".join(f"hub {number + 1}" for number in self.missed)
        if self.of is None:
            return f"no: {which}" if which else "yes"
        if self.of == 1:
            return "no" if self.missed else "yes"
        return f"{self.of - len(self.missed)} of {self.of}{f'; not {which}' if which else ''}"


def list_needed(marked: ExerciseMark, *, left_out: str | None = None) -> tuple[Needed, ...]:
    """Return what had to be on the hubs of an exercise, in the order in which they were asked for it.

    Args:
        marked: the exercise.
        left_out: the name of a criterion that is not to be told, if any.
    """
    labels: dict[str, str] = {}
    asked: dict[str, list[tuple[int, bool]]] = {}
    for hub in marked.hubs:
        for check in hub.checks:
            if check.name != left_out:
                labels[check.name] = check.label
                asked.setdefault(check.name, []).append((hub.hub, check.passed))
    found = [
        Needed(
            label=labels[name], of=len(hubs), missed=tuple(number for number, passed in hubs if not passed)
        )
        for name, hubs in asked.items()
    ]
    if len(asked.get("name", ())) > 1:
        found.append(Needed(label=NO_TIGHT_AS_RIGHT, of=None, missed=marked.tight_as_right))
    return tuple(found)
