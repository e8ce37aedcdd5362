"""What hands on the bench are given: what `feel_of` returns, the hub that all may see, and nothing else of it."""

from collections.abc import Mapping
from typing import Any

import streamlit as st

from conemodel.show.instrument.hand_plates import Gesture, gesture_json
from conemodel.tasks.practice.actions.cone import BINDS, FREE_BELOW, PINCHED, TURNS_FREELY
from conemodel.tasks.practice.open_hub import open_hub
from conemodel.tasks.practice.rock_feel import RockFeel
from conemodel.tasks.practice.torque_feel import TurnFeel, TwirlFeel
from conemodel.ui.practice.session import SPIN, Stand
from conemodel.ui.widgets.contract_rock import AXLE_FINGERS, RockCurve, RockFelt, RockHand
from conemodel.ui.widgets.contract_turning import SpinCurve, SpinFelt, TurnZone
from conemodel.ui.widgets.contract_twirl import Grit, TwirlCurve, TwirlFelt, TwirlHand
from conemodel.ui.widgets.mount import spin_wheel

GRIT_PER_TURN = 12.0
"""Bumps a turn of the axle in dry grease. Assumption."""


def magnification(number: int) -> float:
    """Return how much movement is enlarged: much on the first exercises, not at all on the last.

    >>> magnification(1), magnification(8), magnification(12)
    (20.0, 5.0, 1.0)
    """
    return 20.0 if number <= 6 else 5.0 if number <= 9 else 1.0


def rocking(stand: Stand, found: RockFeel) -> dict[str, Any]:
    """Return what rocking is given: the curve, its words, the hand and how much movement is enlarged."""
    fingers = AXLE_FINGERS
    rim = found.grip == "rim"
    hand = RockHand(
        stiffness=RockHand().stiffness if rim else fingers.stiffness,
        effort=RockHand().effort if rim else fingers.effort,
        knock_speed=RockHand().knock_speed if rim else fingers.knock_speed,
        mass=found.mass,
        flex=found.flex,
        felt_from=found.felt_from,
    )
    return {
        "curve": RockCurve(movement=found.movement, force=found.force),
        "felt": RockFelt(slow=_told(stand, found.slow), quick=_told(stand, found.quick)),
        "grip": found.grip,
        "hand": hand,
        "magnification": magnification(stand.bench.exercise.number),
    }


def drawing_for(stand: Stand, gesture: Gesture) -> Mapping[str, Any]:
    """Return the hub as it lies on the bench for all to see, in the view of a gesture."""
    hub = stand.bench.hub
    return gesture_json(
        open_hub(stand.bench),
        gesture,
        stands="bench" if hub.seat is None else "closed" if hub.closed else "open",
        nut_off=hub.lock is None and not hub.nut_snug,
        cone_held=hub.cone_held,
    )


def twirling(stand: Stand, found: TwirlFeel) -> dict[str, Any]:
    """Return what twirling is given: the curve, its words, and fingers strong enough for the hardest place."""
    hardest = max(found.friction) + max(map(abs, found.pull))
    return {
        "curve": TwirlCurve(
            friction=found.friction,
            dents=found.pull,
            span=found.span,
            grit=Grit(amplitude=found.grit, per_turn=GRIT_PER_TURN if found.grit else 0.0),
        ),
        "felt": TwirlFelt(turning=_told(stand, found.turning), let_go=_told(stand, found.let_go, "Let go.")),
        "hand": TwirlHand(slip=max(TwirlHand().slip, 2.0 * hardest)),
    }


def spin(stand: Stand) -> None:
    """Draw the wheel to be spun, or say why it cannot be now."""
    found = stand.feel.spin
    if found is None:
        st.info(stand.feel.why_not["spin"])
        return
    spin_wheel(
        key=stand.key(SPIN),
        drawing=drawing_for(stand, "spin"),
        curve=SpinCurve(speed=found.speed, torque=found.torque, inertia=found.inertia, rough=found.rough),
        felt=SpinFelt(running=_told(stand, found.running)),
        set_id=stand.set_of("spin"),
    )


def zones_of(found: TurnFeel) -> tuple[TurnZone, ...]:
    """Return what the hand on the spanner feels, zone by zone from the inside out."""

    def from_where(effort: float) -> float:
        return next(
            (at for at, e in zip(found.resist_angle, found.resist_effort, strict=True) if e < effort),
            found.resist_angle[-1],
        )

    return (
        TurnZone(start=-1e3, text=BINDS),
        TurnZone(start=from_where(found.binds), text=PINCHED),
        TurnZone(start=from_where(FREE_BELOW), text=TURNS_FREELY),
    )


def _told(stand: Stand, words: str, instead: str = "Felt.") -> str:
    """Return what a widget says of a gesture: the words only to who has asked for them."""
    return _sentence(words) if stand.bench.words else instead


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."
