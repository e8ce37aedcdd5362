"""One hub's chain of end play as sums that anybody can work again with a pocket calculator."""

from collections.abc import Callable, Mapping
from typing import NamedTuple

from conemodel.base.units import DEG, KILONEWTON, MM, MPA, NEWTON, UM
from conemodel.physics.joint import annulus_area
from conemodel.physics.thread import clearance_for_backlash
from conemodel.solve.stages.compliances import axle_compliance
from conemodel.solve.stages.locknut import SHARE_OF_NUT
from conemodel.tasks.setting.predict import Prediction

SQUARE_MM = 1e6
"""Square millimetres in a square metre."""

SOLVED = "solved for: see the equations"
"""Stands where no sum gives a term: balls, bent and warm parts."""


UNCLAMPED = ("no clamp force", "0")


class HandSum(NamedTuple):
    """One term of end play: what moved, what is multiplied, the numbers of this hub, and what the model has [m].

    The numbers multiply to millimetres; there are none where the term is solved for.
    """

    what: str
    how: str
    numbers: str
    length: float


def sums_by_hand(prediction: Prediction) -> tuple[HandSum, ...]:
    """Return every term of a hub's end play, in the order of the work."""
    terms = [term for stage in prediction.stages.values() for term in stage.terms]
    return tuple(
        HandSum(term.label, *_SUMS.get(term.key, _solved)(prediction), term.length) for term in terms
    )


def _solved(_prediction: Prediction) -> tuple[str, str]:
    return SOLVED, ""


def _back_off(prediction: Prediction) -> tuple[str, str]:
    if prediction.scenario.setting.axle_held == "nothing":
        return _solved(prediction)
    turn = DEG.from_si(prediction.scenario.setting.back_off)
    return "turn of the cone ÷ 360° × lead", f"{turn:.2f} ÷ 360 × {_lead(prediction):.4f}"


def _thread_slack(prediction: Prediction) -> tuple[str, str]:
    play = MM.from_si(float(clearance_for_backlash(axial_backlash=prediction.joint.backlash)))
    return (
        "play on the pitch diameter × tan 30°, half the thread's angle × the nut's share of the closing",
        f"−{play:.4f} × 0.57735 × {_nut(prediction)}",
    )


def _cone_thread(prediction: Prediction) -> tuple[str, str]:
    force = prediction.joint.force
    return (
        "locking force, kN × give of one thread, µm/kN × the nut's share",
        f"−{KILONEWTON.from_si(force):.3f} × {_give(prediction):.3f} × {_nut(prediction)} ÷ 1000",
    )


def _drift(prediction: Prediction) -> tuple[str, str]:
    if prediction.joint.runs_in:
        return _solved(prediction)
    turn = DEG.from_si(prediction.joint.turned_in / prediction.scenario.axle.lead_per_radian)
    return (
        "turn with the nut ÷ 360° × lead × the nut's share",
        f"−{turn:.2f} ÷ 360 × {_lead(prediction):.4f} × {_nut(prediction)}",
    )


def _axle_shortening(prediction: Prediction) -> tuple[str, str]:
    """Hooke's law, for the threaded and the plain part; how much of it the cones leave over stands behind."""
    scenario, clamp = prediction.scenario, prediction.clamp
    if not scenario.clamp.traits.through_axle:
        return "axle nuts stretch their own ends only", "0"
    if clamp.force == 0.0:
        return UNCLAMPED
    axle, force = scenario.axle, NEWTON.from_si(clamp.force)
    parts = [(scenario.cone_distance - axle.plain_length, axle.root_area)]
    if axle.plain_length:
        parts.append((axle.plain_length, float(annulus_area(outer=axle.plain_diameter, inner=axle.bore))))
    bars = " + ".join(f"{MM.from_si(length):.2f} ÷ {area * SQUARE_MM:.3f}" for length, area in parts)
    left = clamp.shortening / (clamp.force * axle_compliance(scenario))
    return (
        "clamp, N ÷ E, N/mm² × (length ÷ area at the thread's root) × what the cones, which bridge it, leave",
        f"−{force:.0f} ÷ {MPA.from_si(axle.young):.0f} × ({bars}) × {left:.4f}",
    )


def _cone_thread_clamp(prediction: Prediction) -> tuple[str, str]:
    clamp, thread = prediction.clamp, prediction.joint.compliances.cone_thread
    if clamp.force == 0.0:
        return UNCLAMPED
    shares = " + ".join(f"{side.push / (clamp.force * thread):.4f}" for side in clamp.sides.values())
    return (
        "clamp, kN × shares through the left and the right cone × give of one thread, µm/kN",
        f"−{KILONEWTON.from_si(clamp.force):.3f} × ({shares}) × {_give(prediction):.3f} ÷ 1000",
    )


def _nut(prediction: Prediction) -> str:
    """Return how much of the closing the nut does, as it stands in a sum."""
    return f"{SHARE_OF_NUT[prediction.scenario.setting.technique]:.1f}"


def _give(prediction: Prediction) -> float:
    """Return how much one engaged thread gives [µm/kN]."""
    return UM.from_si(prediction.joint.compliances.cone_thread) / KILONEWTON.from_si(1.0)


def _lead(prediction: Prediction) -> float:
    """Return how far the cone moves in one turn [mm]."""
    return MM.from_si(prediction.scenario.axle.thread_pitch)


_SUMS: Mapping[str, Callable[[Prediction], tuple[str, str]]] = {
    "back_off": _back_off,
    "thread_slack": _thread_slack,
    "cone_thread": _cone_thread,
    "drift": _drift,
    "axle_shortening": _axle_shortening,
    "cone_thread_clamp": _cone_thread_clamp,
}
