"""The hub from its end, as it lies before the mechanic: its cone on a clock face, and its axle in the fingers."""

from collections.abc import Iterator
from dataclasses import replace

from conemodel.show.instrument.dial import dial_plate, on_ring, path, scale_of
from conemodel.show.instrument.drawing import Group, Label, Part, Plate
from conemodel.show.instrument.measures import Half
from conemodel.show.instrument.paths import ring

SPOKE_HOLES = 18
"""Holes of one flange; schematic."""
SPANNERS = ("nut-spanner", "cone-spanner", "hole", "pointer")
"""Parts of the dial that are no part of the hub."""
HOURS = {0: "12", 90: "3", 180: "6", 270: "9"}
"""What is written on a clock face that knows nothing of finger contact, by its angle [°]."""


def hands_plate(half: Half) -> Plate:
    """Return the dial without finger contact or good range, with both spanners, on an axle that can be twirled."""
    dial = dial_plate(half, balls=(1, 1), good=None)
    kept = {group.name: group for group in dial.groups}
    on_axle = (
        replace(kept[name], turn={**kept[name].turn, "twirled": 1.0}) for name in ("cone", "nut", "axle")
    )
    labels = [Label(text=words, at=on_ring(angle, 79.0), group="ring") for angle, words in HOURS.items()]
    ways = [label for label in dial.labels if label.text.startswith("in ") or label.text.endswith(" out")]
    return Plate(view=dial.view, groups=(kept["ring"], *on_axle), labels=(*labels, *ways))


def axle_plate(half: Half) -> Plate:
    """Return the hub held still, with the axle, its cone and its locknut turning in it."""
    dial = {group.name: group for group in dial_plate(half, balls=(1, 1), good=None).groups}
    parts = tuple(part for name in ("cone", "nut", "axle") for part in _own(dial[name]))
    reach = half.flange * scale_of(half) + 5.0
    return Plate(
        view=(-reach, -reach, 2 * reach, 2 * reach),
        groups=(
            Group(name="shell", parts=tuple(_shell(half))),
            Group(name="axle", turn={"twirled": 1.0}, parts=parts),
        ),
    )


def _own(group: Group) -> tuple[Part, ...]:
    return tuple(part for part in group.parts if part.name not in SPANNERS)


def _shell(half: Half) -> Iterator[Part]:
    """Yield flange, shell and dust cap from outside."""
    scale = scale_of(half)

    def disc(name: str, radius: float, paint: str, title: str) -> Part:
        return Part(name=name, d=path(ring((0, 0), radius * scale, steps=72)), paint=paint, title=title)

    yield disc("flange", half.flange, "seen-1", "flange")
    holes = (on_ring(360 * (i + 0.5) / SPOKE_HOLES, half.spoke_circle * scale) for i in range(SPOKE_HOLES))
    yield Part(
        name="spoke-holes",
        d="".join(path(ring(hole, 1.3 * scale, steps=14)) for hole in holes),
        paint="face",
        title="spoke holes",
    )
    yield disc("shell", half.shell_outer, "seen-2", "hub shell")
    yield disc("dust-cap", half.cup_outer, "cap", "dust cap")
    yield disc("gap", half.seat + 0.5, "dark", "")
