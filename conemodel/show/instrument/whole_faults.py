"""Faults on the whole view: where a track is dented, which end of the axle is bent."""

from collections.abc import Iterator

from conemodel.parts.hub import SIDES
from conemodel.show.instrument import faults
from conemodel.show.instrument.drawing import Group, Part
from conemodel.show.instrument.hub import WholeHub
from conemodel.show.instrument.paths import ring


def fault_groups(hub: WholeHub) -> Iterator[Group]:
    """Yield what is wrong with the hub, if anything is."""
    if parts := tuple(_marks(hub)):
        yield Group(name="faults", parts=parts)


def _marks(hub: WholeHub) -> Iterator[Part]:
    for side in SIDES:
        half, place = hub.halves[side], hub.stack(side)
        for race, words in faults.dents_of(hub.scenario, side).items():
            yield faults.dent(half, hub.row(side), race, words)
            at = half.contact if race == "cone" else half.cup_contact
            yield hub.row(side).part(
                "dent-mark", ring(at, 0.42 * half.ball, steps=16), "fault-mark", title=words
            )
        if place.lean:
            line = [(-4.0, 0.0), (half.axle_end + 6, 0.0)]
            yield place.part("bent", line, "bent", title="bent axle: the cone stands askew", closed=False)
