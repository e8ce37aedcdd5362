"""What is believed of a hub before anybody looked: judgement as numbers, so that it can be questioned.

No count of real hubs stands behind these; each is an assumption of the project.
"""

from collections.abc import Iterator, Mapping
from typing import Any

from conemodel.base.units import DEG, MM, MRAD, N_PER_MM, NEWTON, NEWTON_MM, ONE, UM
from conemodel.parts import unknowns
from conemodel.parts.distributions import standard_error
from conemodel.parts.hand_beliefs import HandBeliefs
from conemodel.parts.schema import FieldError, quantity
from conemodel.parts.unknowns.unknown import Unknown

CAUSES = (
    "sound",
    "bent",
    "dented",
    "gritty",
    "wrong_balls",
    "worn_thread",
    "not_clamping",
    "proud",
    "elsewhere",
    "skew_dropouts",
    "loose_cup",
    "creeping",
    "wearing",
    "skew",
    "broken_axle",
    "cracked_hub",
    "rubbing",
)
"""What may be the matter with a hub: one of these at a time (assumption)."""

BELIEVED = {
    "bends": unknowns.hub.CONE_TILT,
    "skews": unknowns.hub.CONE_TILT,
    "dents": unknowns.hub.DENT_DEPTH,
    "slack_unknown": unknowns.joint.THREAD_SLACK,
    "hand_error": unknowns.hands.MARK_ERROR,
    "dial_uncertainty": unknowns.hands.DIAL_READING,
    "threshold_factor": unknowns.senses.FELT_AT_RIM,
    "own_factor": unknowns.senses.FELT_AT_RIM,
    "rim_push": unknowns.hands.RIM_PUSH,
    "wheel_stiffness": unknowns.hub.WHEEL_STIFFNESS,
}
"""The unknown that a belief rests on, by its field in `Beliefs`; all others are judgement and stand there alone."""


def _ends_and_usual(unknown: Unknown) -> tuple[float, float, float]:
    """Return three values that stand for an unknown, in its unit."""
    return unknown.low, unknown.usual, unknown.high


class Beliefs(HandBeliefs):
    """The prior: how hubs come in, and how far hands and instruments can be trusted."""

    bent: float = quantity(ONE, "chance of a bent axle in true cups", default=0.03, above=0, below=0.5)
    skew: float = quantity(ONE, "chance of cone and cup both out of true", default=0.03, above=0, below=0.5)
    broken_axle: float = quantity(ONE, "chance of a broken axle", default=0.005, above=0, below=0.5)
    cracked_hub: float = quantity(
        ONE, "chance of a cracked flange or shell", default=0.005, above=0, below=0.5
    )
    rubbing: float = quantity(ONE, "chance of a seal or brake that rubs", default=0.02, above=0, below=0.5)
    dented: float = quantity(ONE, "chance of dented or pitted races", default=0.08, above=0, below=0.5)
    gritty: float = quantity(ONE, "chance of grit or dry, dirty grease", default=0.10, above=0, below=0.5)
    wrong_balls: float = quantity(ONE, "chance of balls missing or odd", default=0.03, above=0, below=0.5)
    worn_thread: float = quantity(ONE, "chance of a worn-out thread", default=0.02, above=0, below=0.5)
    not_clamping: float = quantity(
        ONE, "chance that the clamp hardly clamps", default=0.03, above=0, below=0.5
    )
    proud: float = quantity(ONE, "chance of an axle proud of its dropout", default=0.03, above=0, below=0.5)
    elsewhere: float = quantity(
        ONE, "chance that play at the rim comes from freehub, headset, spokes or dropouts",
        default=0.08, above=0, below=0.5,
    )  # fmt: skip
    skew_dropouts: float = quantity(
        ONE, "chance of dropouts out of parallel", default=0.03, above=0, below=0.5
    )
    loose_cup: float = quantity(
        ONE, "chance of a cup that moves in the shell", default=0.01, above=0, below=0.5
    )
    creeping: float = quantity(
        ONE, "chance that locknut, washer or far side creeps in riding", default=0.02, above=0, below=0.5
    )
    wearing: float = quantity(ONE, "chance of races that wear", default=0.02, above=0, below=0.5)
    solid_axle: float = quantity(
        ONE, "chance of axle nuts where nobody said what clamps", default=0.25, above=0, below=1
    )

    end_play_mean: float = quantity(
        MM,
        "end play as found, once closed by the usual clamp: mean",
        default=0.02,
        at_least=-0.2,
        at_most=0.5,
    )
    end_play_spread: float = quantity(
        MM, "the same: standard deviation", default=0.10, above=0.005, at_most=0.5
    )
    clamp_force_factor: float = quantity(
        ONE, "factor either way that holds two thirds of clamp forces", default=1.4, above=1.01, at_most=3
    )
    stated_force_factor: float = quantity(
        ONE, "the same where force, torque or lever angle were stated", default=1.15, above=1.01, at_most=3
    )
    idle_clamp_share: float = quantity(
        ONE, "share of its usual force that a clamp which hardly clamps still has", default=0.05,
        at_least=0, at_most=0.5,
    )  # fmt: skip
    bends: tuple[float, ...] = quantity(
        MRAD,
        "tilts of both cones of a bent axle, equally likely",
        default=_ends_and_usual(unknowns.hub.CONE_TILT),
    )
    skews: tuple[float, ...] = quantity(
        MRAD, "tilts of cone and cup of one row that are both out of true, equally likely",
        default=_ends_and_usual(unknowns.hub.CONE_TILT),
    )  # fmt: skip
    odd_balls: tuple[float, ...] = quantity(
        UM, "how much larger one odd ball of a row is, equally likely; 0 where only the number is wrong",
        default=(0.0, 100.0),
    )  # fmt: skip
    rubs: tuple[float, ...] = quantity(
        NEWTON_MM, "drag of a seal or brake that rubs, equally likely", default=(15.0, 40.0)
    )
    leans: tuple[float, ...] = quantity(
        DEG, "how far both dropouts lean out of parallel, equally likely", default=(0.5, 1.0, 1.5)
    )
    dents: tuple[float, ...] = quantity(
        UM, "depths of dents, equally likely", default=_ends_and_usual(unknowns.hub.DENT_DEPTH)
    )
    dent_half_length: float = quantity(MM, "half the length of a dent", default=0.2, above=0.02, at_most=3)
    thread_play: tuple[float, ...] = quantity(
        MM, "play at the rim from a cone rocking on a worn-out thread, equally likely",
        default=(0.15, 0.3, 0.5, 0.8, 1.2),
    )  # fmt: skip
    broken_play: tuple[float, ...] = quantity(
        MM, "play at the rim from a broken axle, equally likely", default=(0.4, 1.2)
    )
    play_elsewhere: tuple[float, ...] = quantity(
        MM, "play at the rim, in the frame, that is not the hub's, equally likely",
        default=(0.15, 0.25, 0.4, 0.6, 0.9, 1.3, 2.0),
    )  # fmt: skip
    growth: float = quantity(
        MM, "mean growth of end play in a ride where cup or cone creeps", default=0.08, above=0.001, at_most=1
    )
    wear: float = quantity(
        MM, "mean growth of end play in a ride as races wear", default=0.03, above=0.001, at_most=1
    )
    bedding: float = quantity(
        MM, "standard deviation of end play in a ride as grease and faces bed in",
        default=0.003, above=0.0001, at_most=0.1,
    )  # fmt: skip
    slack_unknown: tuple[float, float] = quantity(
        MM, "axial slack of a thread without tolerance classes", default=unknowns.joint.THREAD_SLACK.span
    )

    range_error: float = quantity(
        UM,
        "standard error of the ends of the good range: what contact angles of 35 to 45° and the range of groove "
        "radii move them by",
        default=2.0,
        at_least=0,
        at_most=100,
    )
    dial_uncertainty: float = quantity(
        MM,
        "standard error of a dial gauge at rim, axle end or along the axle",
        default=standard_error(unknowns.hands.DIAL_READING, MM),
        above=0,
        at_most=1,
    )
    ruler_uncertainty: float = quantity(MM, "of a ruler", default=0.3, above=0, at_most=3)
    no_push: float = quantity(
        ONE, "chance that a hand which states no push only swung the rim between its stops", default=0.2,
        at_least=0, below=1,
    )  # fmt: skip
    rim_push: tuple[float, float] = quantity(
        NEWTON,
        "push each way at the rim where somebody pushed and did not state it",
        default=unknowns.hands.RIM_PUSH.span,
    )
    stated_push_factor: float = quantity(
        ONE, "factor either way that holds two thirds of pushes that were stated", default=1.2, above=1.01,
        at_most=3,
    )  # fmt: skip
    wheel_stiffness: tuple[float, float] = quantity(
        N_PER_MM,
        "sideways stiffness of wheels, from soft to stiff; its spread counts about the hub's own",
        default=unknowns.hub.WHEEL_STIFFNESS.span,
    )
    play_model: float = quantity(
        ONE,
        "standard error of computed free play, as a share of it: contact angles of 35 to 45°, most of them near the "
        "middle, and the range of groove radii move it by up to 13 %",
        default=0.05,
        at_least=0,
        at_most=1,
    )
    play_floor: float = quantity(
        MM,
        "least standard error of any play against the model: dropouts up to 1° out of parallel lean the cones, and the "
        "rim then rocks some 0.02 mm more or less with where it is pushed",
        default=0.02,
        above=0.001,
        at_most=0.2,
    )
    other_drag: float = quantity(
        NEWTON_MM, "turning torque of grease and seals: mean", default=9.0, at_least=0, at_most=500
    )
    other_drag_spread: float = quantity(
        NEWTON_MM, "the same: standard deviation", default=4.0, above=0, at_most=500
    )
    safety_weight: float = quantity(
        ONE, "how much more it counts to learn whether the wheel may come out", default=10.0,
        at_least=1, at_most=1000,
    )  # fmt: skip

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """The chances of all faults together must leave room for a sound hub."""
        yield from super().cross_checks(values)
        faults = [values[cause] for cause in CAUSES[1:] if cause in values]
        if sum(faults) > 0.9:
            yield FieldError(field="bent", value=sum(faults), limit="all faults together must stay below 0.9")

    def chance(self, cause: str) -> float:
        """Return the chance of a cause before anybody looked."""
        if cause == "sound":
            return 1.0 - sum(self.chance(other) for other in CAUSES[1:])
        return float(getattr(self, cause))
