"""What a mechanic measured or felt on one hub: every reading is optional and carries its own uncertainty."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator

from conemodel.base.units import DEG, GRAM, KILOMETRE, MM, NEWTON, ONE, TURN
from conemodel.parts.checks import Answer, Checks
from conemodel.parts.clamp_kinds import ClampName
from conemodel.parts.felt_play import PlayWord, word_now
from conemodel.parts.length_checks import check_lengths
from conemodel.parts.push_checks import check_places, check_pushes
from conemodel.parts.schema import FieldError, Part, quantity
from conemodel.parts.toml_files import load_part

Instrument = Literal["dial gauge", "ruler"]
TurningWord = Literal["free", "tight", "gritty", "notchy", "tight in one place"]
Thread = Literal["M9 x 1", "M10 x 1", "3/8 x 26"]

MOST_ROUNDS = 6
"""Rounds a file can hold: as found, and five more."""

ROUNDS = ("found", *(f"round_{number}" for number in range(2, MOST_ROUNDS + 1)))
"""Names of the rounds, in order of the work."""


class Play(Part):
    """Play at one place: measured, or as a word of the hand. Empty where nobody looked."""

    play: float | None = quantity(MM, "free play from stop to stop", default=None, at_least=0, at_most=10)
    by: Instrument = quantity(ONE, "what it was measured with", default="dial gauge")
    uncertainty: float | None = quantity(
        MM, "standard uncertainty of the measurement; usual for the instrument if left out",
        default=None, above=0, at_most=3,
    )  # fmt: skip
    push: float | None = quantity(
        NEWTON, "push at the rim, the same each way, it was read under", default=None, at_least=0, at_most=50
    )
    play_hard: float | None = quantity(
        MM, "the same read again under a harder push", default=None, at_least=0, at_most=10
    )
    push_hard: float | None = quantity(
        NEWTON, "the harder push, the same each way", default=None, above=0, at_most=50
    )
    hand: Annotated[PlayWord | None, BeforeValidator(word_now)] = quantity(
        ONE, "what the hand said", default=None
    )

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """A number or a word, not both; an uncertainty belongs to a number."""
        yield from super().cross_checks(values)
        if values.get("play") is not None and values.get("hand") is not None:
            yield FieldError(
                field="hand",
                value=values["hand"],
                limit="cannot stand beside a measured play",
                remedy="give the number or the word",
            )
        if values.get("play") is None and values.get("uncertainty") is not None:
            yield FieldError(
                field="uncertainty", value=values["uncertainty"], limit="belongs to a measured play"
            )
        yield from check_pushes(values)

    @property
    def given(self) -> bool:
        """Whether anybody looked."""
        return self.play is not None or self.hand is not None


class Size(Part):
    """A measured length. Empty where nobody measured."""

    size: float | None = quantity(MM, "the length", default=None, at_least=0, at_most=500)
    uncertainty: float = quantity(
        MM, "standard uncertainty of the measurement", default=0.1, above=0, at_most=10
    )


class Round(Part):
    """One look at the hub: what was turned and ridden since the last one, what is measured and felt now."""

    turned_in: float = quantity(
        DEG, "cone turned in (clockwise) since the round before", default=0.0, at_least=0, at_most=720
    )
    turned_out: float = quantity(
        DEG, "cone turned out (anticlockwise) since the round before", default=0.0, at_least=0, at_most=720
    )
    ridden: Answer | None = quantity(ONE, "ridden since the round before", default=None)
    ridden_distance: float | None = quantity(
        KILOMETRE, "how far it was ridden since the round before", default=None, at_least=0, at_most=100_000
    )
    rim_open: Play = Play()
    rim_closed: Play = Play()
    axle_end_open: Play = Play()
    axle_end_closed: Play = Play()
    axle_along_open: Play = Play()
    axle_along_closed: Play = Play()
    turns_open: TurningWord | None = quantity(
        ONE, "how the axle turns in the fingers, clamp open", default=None
    )
    turns_closed: TurningWord | None = quantity(ONE, "how the wheel turns, clamp closed", default=None)
    starting_weight: float | None = quantity(
        GRAM, "least weight at the rim that sets the balanced wheel turning, clamp closed",
        default=None, at_least=0, at_most=2000,
    )  # fmt: skip
    starting_weight_uncertainty: float = quantity(
        GRAM, "standard uncertainty of that weight", default=2.0, above=0, at_most=500
    )

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """A cone is turned one way; pushes, words and distances stand where they mean something."""
        yield from super().cross_checks(values)
        if values.get("ridden") == "no" and values.get("ridden_distance"):
            yield FieldError(
                field="ridden_distance",
                value=values["ridden_distance"],
                limit="cannot stand beside ridden = no",
            )
        if values.get("turned_in") and values.get("turned_out"):
            yield FieldError(
                field="turned_out",
                value=values["turned_out"],
                limit="cannot stand beside turned_in",
                remedy="give the difference",
            )
        yield from check_places(values)

    @property
    def turned(self) -> float:
        """Turn of the cone since the round before [rad], positive out."""
        return self.turned_out - self.turned_in

    @property
    def was_ridden(self) -> bool:
        """Whether it was ridden since the round before, as said or by a distance."""
        return self.ridden == "yes" or bool(self.ridden_distance)

    @property
    def plays(self) -> dict[str, Play]:
        """Every play somebody looked for, by name of its field."""
        return {name: one for name, one in self if isinstance(one, Play) and one.given}

    @property
    def empty(self) -> bool:
        """Whether nothing was turned, measured or felt."""
        return self == Round()


class Balls(Part):
    """What came out of one side."""

    diameter: Size = Size(uncertainty=0.02e-3)
    count: int | None = quantity(ONE, "balls counted, twice", default=None, at_least=3, at_most=60)


class Readings(Part):
    """Everything found on one hub. All of it may be left out."""

    name: str = quantity(ONE, "what to call this hub", default="A hub")
    story: str = quantity(ONE, "what is the matter", default="")
    clamp: ClampName | None = quantity(ONE, "what holds the wheel", default=None)
    thread: Thread | None = quantity(ONE, "thread of the axle, gauged", default=None)
    cone_out: float | None = quantity(
        TURN, "how far the cone stood out of finger contact, as found, if marked",
        default=None, at_least=-1, at_most=3,
    )  # fmt: skip
    cone_out_uncertainty: float = quantity(
        TURN, "standard uncertainty of that", default=0.02, above=0, at_most=0.5
    )
    protrusion_left: Size = Size()
    protrusion_right: Size = Size()
    over_locknut_width: Size = Size()
    axle_length: Size = Size(uncertainty=0.3e-3)
    dropout_width: Size = Size(uncertainty=0.5e-3)
    dropout_thickness: Size = Size()
    pitch_diameter: Size = Size(uncertainty=0.3e-3)
    thread_slack: Size = Size(uncertainty=0.02e-3)
    balls_left: Balls = Balls()
    balls_right: Balls = Balls()
    checks: Checks = Checks()
    found: Round = Round()
    round_2: Round = Round()
    round_3: Round = Round()
    round_4: Round = Round()
    round_5: Round = Round()
    round_6: Round = Round()

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """Nothing was turned before the first look, rounds follow each other, lengths go together."""
        yield from super().cross_checks(values)
        if "found" in values and values["found"].turned:
            yield FieldError(
                field="found.turned_in" if values["found"].turned < 0 else "found.turned_out",
                value=abs(values["found"].turned),
                limit="belongs to a later round: as found, nothing was turned yet",
            )
        if "found" in values and values["found"].was_ridden:
            yield FieldError(
                field="found.ridden",
                value="yes",
                limit="belongs to a later round: how it came in is what riding made of it",
            )
        rounds = [values.get(name, Round()) for name in ROUNDS]
        for before, now, name in zip(rounds[1:], rounds[2:], ROUNDS[2:], strict=False):
            if before.empty and not now.empty:
                yield FieldError(
                    field=name, value=None, limit="stands after an empty round", remedy="renumber"
                )
        yield from check_lengths(values)

    @property
    def rounds(self) -> tuple[Round, ...]:
        """The rounds there are, in order; always at least the first."""
        given = [getattr(self, name) for name in ROUNDS]
        last = max((i for i, one in enumerate(given) if not one.empty), default=0)
        return tuple(given[: last + 1])

    @property
    def play_measured(self) -> bool:
        """Whether play, drag or the cone's place was measured, and not only felt."""
        return self.cone_out is not None or any(
            look.starting_weight is not None or any(play.play is not None for play in look.plays.values())
            for look in self.rounds
        )


def load_readings(path: str | Path) -> Readings:
    """Read a file of readings.

    Raises:
        InputProblems: what cannot be used, naming file, line, field, value and limit of every mistake.
    """
    return load_part(Readings, Path(path))
