"""An exercise at the practice bench, and the range its hidden hubs are drawn from."""

from collections.abc import Iterator, Mapping
from typing import Any, Literal

from pydantic import Field

from conemodel.base.units import DEG, MM, MRAD, N_PER_MM, NEWTON, NEWTON_METRE, ONE, UM
from conemodel.parts import unknowns
from conemodel.parts.scatter import Scatter
from conemodel.parts.schema import FieldError, Part, quantity
from conemodel.parts.setting import ClampSeat, State

Kind = Literal["touch", "name", "set"]
Start = Literal["apart", "locked"]
Fault = Literal[
    "none", "bent axle", "dents", "dry grease", "odd ball", "thread worn out", "proud axle", "ball missing"
]
QuestionName = Literal["name", "flex", "foretell", "why", "fault", "refuse", "recheck"]
Must = Literal[
    "play felt open",
    "drift held",
    "three positions",
    "from the mark",
    "protrusion first",
    "balls counted",
]
Span = tuple[float, float]

TAUGHT_CLAMP = unknowns.joint.CLAMP_FORCE.with_range(
    3500.0, 7000.0, because="narrower: the rare ends would teach the exception first"
)
TAUGHT_MISS = unknowns.hands.MARK_ERROR.with_range(
    -1.5, 1.5, because="narrower: the trainee's own hand on the screen errs besides"
)
TAUGHT_BEND = unknowns.hub.CONE_TILT.with_range(
    6.0, 10.0, because="worse than what comes in: a finger on a screen must find it"
)
TAUGHT_CUP = unknowns.hub.CONE_TILT.with_range(
    3.0, 5.0, because="half of the cone's, as a bend shares it out"
)
TAUGHT_DENT = unknowns.hub.DENT_DEPTH.with_range(
    unknowns.hub.DENT_DEPTH.usual,
    unknowns.hub.DENT_DEPTH.high,
    because="the deeper half: shallower cannot be found on a screen",
)
"""Ranges that practice takes for itself."""


class Prior(Part):
    """What a hidden hub is drawn from: every pair is a range, drawn evenly. Invented, and stated here."""

    thread_clearance: Span | None = quantity(
        UM,
        "play of cone on axle thread, on the pitch diameter; left out: what the classes allow",
        default=None,
    )
    clamp_force: Span = quantity(NEWTON, "clamping force", default=TAUGHT_CLAMP.span)
    finger_torque: Span = quantity(
        NEWTON_METRE, "how hard the fingers screw the cone in", default=unknowns.hands.FINGER_TORQUE.span
    )
    push: Span = quantity(
        NEWTON_METRE,
        "how hard the hand pushes on the cone's spanner before it goes no further, new for each hub, so that the stop "
        "is no mark to count back from; an assumption: from what a finger does to what an arm does",
        default=(0.3, 3.6),
    )
    drift: Span = quantity(
        DEG, "how far a held cone turns in, new at each locking", default=unknowns.hands.DRIFT.span
    )
    hand_error: float = quantity(
        DEG,
        "most the hand misplaces the cone at locking; half of it with a pen mark",
        default=TAUGHT_MISS.high,
        at_least=0,
    )
    nut_drag: Span = quantity(
        DEG,
        "how far an axle nut drags a cone whose lock the clamp has unloaded",
        default=unknowns.hands.NUT_DRAG.span,
    )
    cone_out: Span = quantity(
        DEG, "how far the cone stands out from finger contact at the start", default=(90.0, 270.0)
    )
    states: tuple[State, ...] = Field(
        default=("right",), description="what a hub that starts locked can be; each entry is as likely"
    )
    beyond: Span = quantity(
        DEG,
        "how far past its edge of the good range a loose or tight hub starts, as turn of cone",
        default=(8.0, 25.0),
    )
    wheel_stiffness: Span | None = quantity(
        N_PER_MM, "sideways force at the rim that bends the wheel by 1 mm", default=None
    )
    faults: tuple[Fault, ...] = Field(
        default=("none",), description="what can be wrong; each entry is as likely"
    )
    cone_tilt: Span = quantity(MRAD, "tilt of the cone on a bent axle", default=TAUGHT_BEND.span)
    cup_tilt: Span = quantity(MRAD, "tilt of the cup that goes with it", default=TAUGHT_CUP.span)
    oversize: Span = quantity(UM, "how much larger an odd ball is", default=unknowns.hub.ODD_BALL.span)
    dent_depth: Span = quantity(UM, "depth of dents at ball spacing", default=TAUGHT_DENT.span)
    proud_by: Span = quantity(
        MM, "how far a proud axle end stands out of its dropout", default=unknowns.hub.PROUD_END.span
    )
    because: str = quantity(ONE, "why its ranges are not what is assumed elsewhere", default="")

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """No range may be upside down, no list empty."""
        yield from super().cross_checks(values)
        for name, value in values.items():
            span = isinstance(value, tuple) and len(value) == 2 and all(isinstance(v, float) for v in value)
            if span and value[0] > value[1]:
                yield FieldError(
                    field=name,
                    value=value[0],
                    limit="must not be above the end of its range, {}",
                    bound=value[1],
                )
            if value == ():
                yield FieldError(field=name, value="[]", limit="must have at least one entry")


class Exercise(Part):
    """One exercise: the hub it uses, how it starts, what is asked and what counts."""

    name: str = quantity(ONE, "what to call it")
    goal: str = quantity(ONE, "what the trainee is told, in a paragraph")
    number: int = quantity(ONE, "place on the ladder, 0 for one of your own", default=0, at_least=0)
    scenario: str = quantity(ONE, "name of the scenario file the hidden hubs are made from, without .toml")
    kind: Kind = quantity(ONE, "find first touch, name what is there, or set the hub right", default="set")
    start: Start = quantity(ONE, "loosely put together, or locked as found", default="apart")
    hubs: int = quantity(ONE, "hubs one after the other", default=1, at_least=1, at_most=12)
    needed: int = quantity(ONE, "how many of them must be right", default=1, at_least=1, at_most=12)
    seat: ClampSeat | None = quantity(ONE, "what the clamp sits on, closed, at the start", default=None)
    pen: bool = quantity(ONE, "axle, cone and locknut are marked with a pen at the start", default=False)
    brake_loose: bool = quantity(ONE, "the brake hangs loose at the start", default=False)
    assessed: bool = quantity(ONE, "no undo and no reference hubs", default=True)
    rides: bool = quantity(ONE, "the wheel is ridden once it is said to be done", default=False)
    most_locks: int | None = quantity(
        ONE, "most times the locknut may be tightened", default=None, at_least=0
    )
    most_moves: int | None = quantity(ONE, "most moves that can shift the cone", default=None, at_least=0)
    touch_within: float = quantity(DEG, "how near to first touch the cone must end", default=10.0, above=0)
    questions: tuple[QuestionName, ...] = quantity(ONE, "questions that must be answered right", default=())
    must: tuple[Must, ...] = quantity(ONE, "what must have been done, besides", default=())
    prior: Prior = Prior()
    scatter: Scatter = Scatter()
    last_differs: bool = quantity(ONE, "the last hub is drawn from a table of its own", default=False)
    last: Prior = Prior()

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """No more hubs may be needed than there are; the scenario is a plain name."""
        yield from super().cross_checks(values)
        if {"hubs", "needed"} <= values.keys() and values["needed"] > values["hubs"]:
            yield FieldError(
                field="needed", value=values["needed"], limit=f"must be at most {values['hubs']}"
            )
        stem = values.get("scenario", "x")
        if not all(letter.isalnum() or letter in "-_" for letter in stem) or not stem:
            yield FieldError(
                field="scenario",
                value=stem,
                limit="must be the bare name of a file: letters, digits, - and _",
            )

    def prior_of(self, hub: int) -> Prior:
        """Return what the hub of that number is drawn from; the last may have its own."""
        return self.last if self.last_differs and hub == self.hubs - 1 else self.prior
