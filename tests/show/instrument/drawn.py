"""What a drawing shows, read off its paths as a painter would place them."""

import re
from pathlib import Path

import numpy as np

from conemodel.parts.scenario import Scenario
from conemodel.parts.toml_files import load_scenario
from conemodel.show.instrument.drawing import Drawing, Group, Part, Plate
from conemodel.show.instrument.still import shift_of

STAGES = ("contact", "backed_off", "locked", "clamped", "ridden")


def outlines(d: str) -> list[np.ndarray]:
    """Return the lines of a path, each shape (n, 2)."""
    lines = re.findall(r"M([^MZ]+)", d)
    return [np.array([[float(n) for n in point.split()] for point in line.split("L")]) for line in lines]


def scenario_of(root: Path, name: str) -> Scenario:
    return load_scenario(root / "scenarios" / f"{name}.toml")


def names(plate: Plate) -> list[str]:
    return [part.name for group in plate.groups for part in group.parts]


def group_of(plate: Plate, name: str) -> Group:
    return next(group for group in plate.groups if group.name == name)


def part_of(plate: Plate, name: str) -> tuple[Group, Part]:
    return next((group, part) for group in plate.groups for part in group.parts if part.name == name)


def placed(plate: Plate, name: str, state) -> np.ndarray:
    """Return the first outline of a part where it stands in a state, its parents' moves and all."""
    group, part = part_of(plate, name)
    points = outlines(part.d)[0].copy()
    while True:
        points[:, 0] += shift_of(group, state)
        if group.parent is None:
            return points
        group = group_of(plate, group.parent)


def crossing_at(line: np.ndarray, y: float, *, near: float) -> float:
    """Return where an open or closed line crosses a height, nearest to a place."""
    found = []
    for (x0, y0), (x1, y1) in zip(line, np.roll(line, -1, axis=0), strict=True):
        if y0 == y:
            found.append(x0)
        elif (y0 - y) * (y1 - y) < 0:
            found.append(x0 + (x1 - x0) * (y - y0) / (y1 - y0))
    return float(min(found, key=lambda x: abs(x - near)))


def drawn_gap(drawing: Drawing, state) -> float:
    """Return how far race and ball stand apart along the axis at the height where they touch [mm drawn]."""
    plate, touch = drawing.plates["close"], drawing.rule.zero
    (wheel, ball), (cone, race) = (part_of(plate, name) for name in ("ball", "race"))
    round_it, along = outlines(ball.d)[0], outlines(race.d)[0]
    below = round_it[round_it[:, 1] > round_it[:, 1].mean()]
    y = below[np.argmin(abs(below[:, 0] - touch))][1]
    at_ball = crossing_at(round_it, y, near=touch) + shift_of(wheel, state)
    at_race = crossing_at(along, y, near=touch) + shift_of(cone, state)
    return float(drawing.out * (at_race - at_ball))


def random_hub(base: Scenario, seed: int) -> Scenario:
    """Return a hub of other balls, angles, rows, axle, clamp and side than `base`."""
    rng = np.random.default_rng(seed)
    ball = rng.choice([3.96875, 4.7625, 5.556, 6.35]) * 1e-3
    pitch = ball * rng.uniform(3.05, 4.2)
    row = base.hub.left.replace(
        ball_diameter=ball,
        pitch_diameter=pitch,
        ball_count=int(rng.integers(7, 9)),
        contact_angle=rng.uniform(0.5, 0.9),
        cone_conformity=rng.uniform(0.52, 0.62),
    )
    thread = (pitch - ball) * rng.uniform(0.62, 0.75)
    width = rng.uniform(0.1, 0.15)
    hub = base.hub.replace(
        left=row,
        right=row,
        row_spacing=width - rng.uniform(0.045, 0.06),
        over_locknut_width=width,
        adjustable_side=str(rng.choice(["left", "right"])),
    )
    axle = base.axle.replace(
        thread_diameter=thread,
        bore=thread * 0.5,
        length=width + 0.011,
        thread_clearance=rng.uniform(0, 3e-4),
    )
    clamp = base.clamp.replace(rod_diameter=thread * 0.45)
    stacks = {
        side: base.stack.side(side).replace(
            washer_outer_diameter=thread * 1.7, face_outer_diameter=thread * 1.5
        )
        for side in ("left", "right")
    }
    return base.replace(
        hub=hub,
        axle=axle,
        clamp=clamp,
        stack=base.stack.replace(**stacks),
        setting=base.setting.replace(back_off=rng.uniform(-0.1, 0.6) * 2 * np.pi),
    )
