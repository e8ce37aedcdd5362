"""Chances: how likely a setting is loose, right or tight, and when that may be named."""

from dataclasses import dataclass

from conemodel.parts.setting import State

SURE = 2 / 3
"""Chance from which a state is named outright. Judgement."""

SMALL = 0.1
"""Chance below which a state is left out when it may be one of several. Judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chances:
    """How likely a hub is loose, right or tight once clamped, over everything that is assumed [-]; together 1."""

    loose: float
    right: float
    tight: float

    @property
    def likeliest(self) -> State:
        """The likeliest state."""
        return max(self.by_state, key=lambda state: self.by_state[state])

    @property
    def named(self) -> State | None:
        """The state that may be named outright; None where it is not to be told."""
        return self.likeliest if self.by_state[self.likeliest] >= SURE else None

    @property
    def possible(self) -> tuple[State, ...]:
        """The states it may be, from loose to tight, the unlikely left out."""
        return tuple(state for state, chance in self.by_state.items() if chance >= SMALL)

    @property
    def by_state(self) -> dict[State, float]:
        """The chances by the names of the states, from loose to tight."""
        found: dict[State, float] = {"loose": self.loose, "right": self.right, "tight": self.tight}
        return found
