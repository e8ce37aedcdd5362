"""What a hub does at each look, whatever the mechanic then reads: movement under every push, free play, torque.

Nothing here is imported from the package. SI throughout.
"""

from dataclasses import dataclass
from functools import partial

import numpy as np

from tests.tasks.diagnosis.adversarial.truth import BREATH, Truth, along_axle, at_axle_end, at_rim, move
from tests.tasks.diagnosis.adversarial.turning import Torque, torque_of

CLAMPS = ("open", "closed")


@dataclass(frozen=True, kw_only=True)
class Look:
    """One look at n hubs, by how the clamp stands: movement (n,) [m] by the push [N], free play, how it turns."""

    rim: dict[tuple[str, float], np.ndarray]
    along: dict[tuple[str, float], np.ndarray]
    axle_end: dict[str, np.ndarray]
    torque: dict[str, Torque]


def look_at(truth: Truth, opened: np.ndarray, dice: np.random.Generator, pushes: tuple[float, ...]) -> Look:
    """Return what hubs do at end plays `opened` (n,) [m], each wheel as it happened to stand.

    `pushes` [N] may hold 0, for which a breath stands.
    """
    count = len(opened)
    angles = dice.uniform(0, 2 * np.pi, (count, 2, 4))
    look = Look(rim={}, along={}, axle_end={}, torque={})
    for number, clamp in enumerate(CLAMPS):
        wheel, *balls, at = angles[:, number].T
        rows = truth.open_rows if clamp == "open" else truth.closed_rows
        end_play = opened if clamp == "open" else opened - truth.closing + truth.bowing
        standing = rows.turned(wheel, np.stack(balls, axis=1))
        for push in pushes:
            rocked = partial(move, standing, end_play=end_play, push=push or BREATH)
            look.rim[clamp, push] = rocked(way=at_rim(at))
            look.along[clamp, push] = rocked(way=along_axle(count))
        look.axle_end[clamp] = move(standing, end_play=end_play, way=at_axle_end(at), push=BREATH)
        dents = np.array([hub.dent for hub in truth.hubs])
        look.torque[clamp] = torque_of(rows, end_play=end_play, dent=dents)
    return look
