"""A population: hubs as they come to a bench, and the hands, threads and clamps they meet. None of it is measured."""

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from pydantic import create_model

from conemodel.base.units import ONE, TURN
from conemodel.parts import unknowns
from conemodel.parts.clamp_kinds import CLAMP_KINDS, key_of
from conemodel.parts.distributions import (
    Uncertain,
    UncertainForce,
    UncertainFriction,
    UncertainGroove,
    UncertainLength,
    UncertainShare,
    UncertainTorque,
    UncertainTurn,
)
from conemodel.parts.library import SCENARIOS
from conemodel.parts.schema import FieldError, Part, quantity
from conemodel.parts.setting import ContactFound, Technique

DEFAULT = SCENARIOS / "populations" / "workshop-mix.toml"
"""The population taken where none is given."""

WHOLE = 1e-6
"""How near to one the shares of the hubs must add up [-]."""

MOST_KINDS = 40
"""Most scenarios that a population names; each is read and solved."""


class Kinds(Part):
    """The hubs of a population: one scenario file for each kind, and how many of all hubs are of it."""

    files: tuple[str, ...] = quantity(ONE, "names of the scenarios, without their ending")
    shares: tuple[float, ...] = quantity(ONE, "share of all hubs that is of each kind")
    because: str = quantity(ONE, "why they are taken so")

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """As many shares as files, each above 0, one in all."""
        yield from super().cross_checks(values)
        if not {"files", "shares"} <= values.keys():
            return
        files, shares = values["files"], values["shares"]
        if not files or len(files) != len(shares):
            given = f"{len(shares)} shares for {len(files)} files"
            yield FieldError(
                field="shares", value=given, limit="must be one for each of the files, at least one"
            )
        elif min(shares) <= 0 or abs(sum(shares) - 1) > WHOLE:
            given = f"{list(shares)}, together {sum(shares):.6g}"
            yield FieldError(field="shares", value=given, limit="must each be above 0 and together be 1")
        if len(files) > MOST_KINDS:
            yield FieldError(
                field="files", value=f"{len(files)} names", limit=f"must not be more than {MOST_KINDS}"
            )
        if len(set(files)) < len(files):
            yield FieldError(field="files", value=list(files), limit="must not name a scenario twice")


class Hands(Part):
    """How the cone is set, and how well. The cone is held and the axle stands in a vice."""

    back_off: float = quantity(
        TURN, "how far the cone is turned out from finger contact", default=0.25, at_least=-1, at_most=3
    )
    technique: Technique = quantity(ONE, "what is turned to lock", default="nut turned")
    contact_found: ContactFound = quantity(
        ONE,
        "whether the locknut is loose or snug on the cone when finger contact is found",
        default="nut loose",
    )
    finger_torque: UncertainTorque = UncertainTorque.of(unknowns.hands.FINGER_TORQUE)
    back_off_error: UncertainTurn = UncertainTurn.of(unknowns.hands.BACK_OFF_ERROR)
    drift: UncertainTurn = UncertainTurn.of(unknowns.hands.DRIFT)
    lock_torque: UncertainTorque = UncertainTorque.of(unknowns.hands.LOCK_TORQUE)


class Threads(Part):
    """Fit, compliance and friction of the axle's threads.

    A fit of 0 and of 1 is the tightest and the loosest that a hub's tolerance classes allow; where its scenario gives
    the clearance as measured, that stands.
    """

    fit: UncertainShare = UncertainShare.of(unknowns.joint.THREAD_FIT)
    give: UncertainShare = UncertainShare.of(unknowns.joint.CORE_SHARE)
    bridging: UncertainShare = UncertainShare.of(unknowns.joint.THREAD_BRIDGING)
    friction: UncertainFriction = UncertainFriction.of(unknowns.joint.FRICTION)


class ByClampKind(Part):
    """Force of the closed clamp, by its kind."""

    def of(self, kind: str) -> UncertainForce:
        """Return the spread of one kind of clamp, as a scenario names it."""
        spread: UncertainForce = getattr(self, key_of(kind))
        return spread


if TYPE_CHECKING:
    ClampForces = ByClampKind
else:
    ClampForces = create_model(
        "ClampForces",
        __base__=ByClampKind,
        __doc__=ByClampKind.__doc__,
        **{
            key_of(name): (UncertainForce, UncertainForce.of(kind.force))
            for name, kind in CLAMP_KINDS.items()
        },
    )


class Tools(Part):
    """What better tools leave unknown.

    `keyed_washer`: how far its key lets the cone turn; `feeler`: error of the thread slack measured with leaves
    between cone and locknut; `dial_gauge`: error of the clamped end play read on it, after a first try at
    `first_back_off`, which must leave play to read.
    """

    keyed_washer: UncertainTurn = UncertainTurn.of(unknowns.joint.KEY_CLEARANCE)
    feeler: UncertainLength = UncertainLength.of(unknowns.hands.FEELER_ERROR)
    dial_gauge: UncertainLength = UncertainLength.of(unknowns.hands.DIAL_ERROR)
    first_back_off: float = quantity(
        TURN, "first try before the dial gauge is read", default=0.5, at_least=0, at_most=3
    )


class Population(Part):
    """Every assumption of a study of many hubs; each spread says why it is taken so.

    What a file leaves out is as `parts.unknowns` has it.
    """

    name: str = quantity(ONE, "what to call this population")
    story: str = quantity(ONE, "whose hubs these are, in a paragraph")
    hubs: Kinds
    hands: Hands = Hands()
    threads: Threads = Threads()
    face_friction: UncertainFriction = UncertainFriction.of(unknowns.joint.FRICTION)
    groove: UncertainGroove = UncertainGroove.of(unknowns.hub.GROOVE)
    clamp_force: ClampForces = ClampForces()
    tools: Tools = Tools()

    @property
    def assumptions(self) -> tuple[tuple[str, Uncertain], ...]:
        """Every spread of the population with its place in the file."""
        return tuple(_spreads(self, ""))


def _spreads(part: Part, path: str) -> Iterator[tuple[str, Uncertain]]:
    for name in type(part).model_fields:
        value = getattr(part, name)
        if isinstance(value, Uncertain):
            yield f"{path}{name}", value
        elif isinstance(value, Part):
            yield from _spreads(value, f"{path}{name}.")
