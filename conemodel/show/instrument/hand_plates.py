"""The views of a hub that gestures move: rocked at rim or axle end, twirled, spun, or all of it at once."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any, Literal

from conemodel.parts.scenario import Scenario
from conemodel.show.instrument.bench_spanners import edge_spanner
from conemodel.show.instrument.drawing import Group, Plate
from conemodel.show.instrument.end_on import axle_plate, hands_plate
from conemodel.show.instrument.hub import hub_of
from conemodel.show.instrument.measures import half_of
from conemodel.show.instrument.paints import COLOURS, PAINTS
from conemodel.show.instrument.wheel_side import side_plate
from conemodel.show.instrument.whole import whole_plate

Gesture = Literal["rim", "axle end", "twirl", "spin", "side", "end"]
"""What is done with it; `side` and `end` are the two views of the bench on which all of it is done."""
Stands = Literal["bench", "open", "closed"]
"""A hub without its clamp, with the clamp fitted and open, and clamped."""

RIMS = ("rim top", "rim bottom")
STAGE: Mapping[Stands, str] = {"bench": "contact", "open": "locked", "closed": "clamped"}
BEHIND = ("rod", "axle", "cone", "far cone", "washers", "far washers", "nut", "far nut")
"""Groups of the whole view that lie on the axle and are painted before the wheel."""
IN_WHEEL = ("wheel", "drive", "shell", "bearings", *RIMS)


def gesture_json(
    scenario: Scenario,
    gesture: Gesture,
    *,
    stands: Stands = "bench",
    nut_off: bool = False,
    cone_held: bool = False,
) -> dict[str, Any]:
    """Return what a browser needs to move a hub by one gesture, as plain data: view, paints, colours, where it stands.

    Nothing in it depends on where the cone stands or on the state of the races; what is moved is added by the browser.

    Args:
        scenario: the hub; its clamp seat and what holds its axle are drawn.
        gesture: what is done with it.
        stands: whether it is clamped.
        nut_off: the locknut stands off its cone.
        cone_held: a spanner is on the cone; seen from the side of the bench.
    """
    plate = side_of_bench(scenario, cone_held=cone_held) if gesture == "side" else _PLATES[gesture](scenario)
    hold = {"hold": _axle_hold(scenario, stands)} if gesture in ("axle end", "side") else {}
    used = {part.paint for group in plate.groups for part in group.parts}
    shut = float(stands == "closed")
    return hold | {
        "sheet": plate.as_json(),
        "paints": {key: paint for key, paint in PAINTS.items() if key in used},
        "colours": COLOURS,
        "out": -1 if scenario.hub.adjustable_side == "left" else 1,
        "stage": STAGE[stands],
        "vars": {"lever": shut, "clamp": shut, "off": float(nut_off), "nut": float(not nut_off)},
    }


def rim_plate(scenario: Scenario) -> Plate:
    """Return the whole view with its rim; `sway` is how far the rim goes with the hub, `give` beyond it [mm]."""
    plate = _whole(scenario)
    give = {"rim top": 1.0, "rim bottom": -1.0}
    groups = (
        replace(group, move={**group.move, "give": give[group.name]}) if group.name in give else group
        for group in plate.groups
    )
    assert plate.wide is not None
    return replace(plate, view=plate.wide, wide=None, groups=tuple(groups))


def axle_end_plate(scenario: Scenario) -> Plate:
    """Return the whole view, its wheel held and its axle with all it carries leaning by `tip`."""
    plate = _whole(scenario)
    wheel = (
        replace(group, turn={}) for group in plate.groups if group.name in IN_WHEEL and group.name not in RIMS
    )
    return replace(plate, wide=None, groups=tuple(_leaning(scenario, plate, wheel)))


def side_of_bench(scenario: Scenario, *, cone_held: bool) -> Plate:
    """Return the whole view with its rim: `sway` and `give` rock the wheel, `tip` its axle; what is held is in hand."""
    plate, hub = rim_plate(scenario), hub_of(scenario)
    wheel = (group for group in plate.groups if group.name in IN_WHEEL)
    groups = [
        replace(group, when=None) if group.name == "vice" else group
        for group in _leaning(scenario, plate, wheel)
        if not group.name.endswith("from its end")
    ]
    if cone_held:
        groups.append(edge_spanner(hub, hub.adjusted, "cone"))
    if scenario.setting.axle_held == "far spanners":
        groups.append(edge_spanner(hub, hub.far, "locknut"))
    return replace(plate, groups=tuple(groups))


def _leaning(scenario: Scenario, plate: Plate, wheel: Iterable[Group]) -> Iterator[Group]:
    """Yield a wheel between what lies on its axle behind and before it, which leans by `tip`."""
    leans = {"tip": -57.29578e-3 / scenario.axle_end_arm}
    yield Group(name="axle and cones", turn=leans)
    yield from (_hung(group, "axle and cones") for group in plate.groups if group.name in BEHIND)
    yield from wheel
    yield Group(name="on the axle", turn=leans)
    before = (group for group in plate.groups if group.name not in (*BEHIND, *IN_WHEEL, "axis"))
    yield from (_hung(group, "on the axle") for group in before)


def _axle_hold(scenario: Scenario, stands: Stands) -> tuple[float, float]:
    """Return where fingers take the axle, from the hub's middle, and half of how thick it is there [mm]."""
    hub, side = hub_of(scenario), scenario.hub.adjustable_side
    half = hub.halves[side]
    if stands == "bench":
        return hub.end(side).out * (half.plane + half.axle_end - 2.0), half.thread
    return hub.end(side).out * (hub.clamp_face(side) + 8.0), half.thread + 6.0


def _hung(group: Group, parent: str) -> Group:
    return group if group.parent else replace(group, parent=parent)


def _whole(scenario: Scenario) -> Plate:
    """Return the whole view without labels, lens and signs of faults; a millimetre of `sway` is one at the rim."""
    out = -1 if scenario.hub.adjustable_side == "left" else 1
    plate = whole_plate(scenario, factor=out, rim_play=2.0)
    return replace(plate, labels=(), groups=tuple(g for g in plate.groups if g.name not in ("lens", "load")))


_PLATES: Mapping[Gesture, Callable[[Scenario], Plate]] = {
    "rim": rim_plate,
    "axle end": axle_end_plate,
    "twirl": lambda scenario: axle_plate(half_of(scenario, "left")),
    "spin": lambda scenario: side_plate(hub_of(scenario)),
    "end": lambda scenario: hands_plate(half_of(scenario, scenario.hub.adjustable_side)),
}
