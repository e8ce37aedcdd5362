"""What every action at the bench is: whether it can be done, what it does, and its words."""

from abc import ABC, abstractmethod
from typing import ClassVar

from conemodel.tasks.practice.session import Bench


class Action(ABC):
    """Something that can be done at the bench; what is chosen about it are the fields of its class.

    An action of its own is a frozen dataclass in a file of this folder, and an entry in `ACTIONS`. Angles are in
    rad, outward positive, as they stand on the clock.

    Attributes:
        moves_cone: it can shift the cone: it counts as a move of the cone and is barred where a hub is only judged.
        counts: it counts as a move at all; one that changes nothing about the hub itself does not.
        is_taken_back: taking back undoes it; in free practice the bench before it is kept.
        after_last_word: it can be done to a hub on which the last word was said.
        group: the group of buttons it stands in on the page: cone, locknut, feel, look, put right.
        button: what stands on its button, empty where the page asks for it in another way.
        done: what was done, as the log has it, where nothing is chosen about it.
    """

    __slots__ = ()
    moves_cone: ClassVar[bool] = False
    counts: ClassVar[bool] = True
    is_taken_back: ClassVar[bool] = True
    after_last_word: ClassVar[bool] = False
    group: ClassVar[str] = ""
    button: ClassVar[str] = ""
    done: ClassVar[str] = ""

    @property
    def words(self) -> str:
        """What was done, as the log has it; it names no number of the hub."""
        return self.done

    def cannot(self, bench: Bench) -> str | None:
        """Return why it cannot be done now, in plain words, or None where it can."""
        return None

    @abstractmethod
    def apply(self, bench: Bench) -> tuple[Bench, str]:
        """Return the bench after it, and what hands, eyes and ears answer; it can be done now."""

    def is_felt(self, told: str) -> bool:
        """Return whether what it was answered by is felt, and not seen: it is read only once the hand has spoken."""
        return False

    @classmethod
    def buttons(cls, bench: Bench) -> tuple[tuple[str, "Action"], ...]:
        """Return its buttons on the page, in order: what stands on each, and what it does."""
        return ((cls.button, cls()),) if cls.button else ()
