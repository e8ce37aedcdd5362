"""The method in the open: published checks computed when asked, and what the model leaves out, with sizes."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, degrees, radians, sin, tan

import numpy as np

from conemodel.parts.bearing import Pair, Row
from conemodel.parts.scenario import Scenario
from conemodel.solve.equilibrium.arrays import arrays_of_pair, arrays_of_row
from conemodel.solve.equilibrium.pair import PairSolution, solve_hubs, solve_pair
from conemodel.tasks.bearing.spin_down import QUOTED_FACTOR, against_quoted
from conemodel.tasks.setting.good_range import window_of
from conemodel.tasks.validation.published_check import STATUS_WORDS, PublishedCheck, check
from conemodel.tasks.validation.published_values import component_checks

__all__ = [
    "LEFT_OUT",
    "STATUS_WORDS",
    "LeftOut",
    "PublishedCheck",
    "published_checks",
    "whole_hub_check",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOut:
    """Something real that the model does not compute: `what` it is, how large, and what to do about it."""

    what: str
    size: str
    advice: str


LEFT_OUT: tuple[LeftOut, ...] = (
    LeftOut(
        what="play of freehub and headset",
        size="often more than that of the hub",
        advice="tell them apart first: rock the cassette by itself, and the wheel out of the frame",
    ),
    LeftOut(
        what="bending of the axle under the rider",
        size="the shipped hubs' cones slope by 0.02° to 0.97°: least where the frame holds the axle fast, most where "
        "it turns freely",
        advice="a bent axle can be described: the tilt of its cone",
    ),
    LeftOut(
        what="pull of the spokes on the shell",
        size="constant once the wheel is built",
        advice="adjust after building and truing, not before",
    ),
    LeftOut(
        what="widening of the shell round the cups",
        size="not known",
        advice="it only softens the bearing a little; the clamped feel counts",
    ),
    LeftOut(
        what="bedding in",
        size="micrometres, over the first clampings and the first hundred kilometres",
        advice="check again after the first ride and within about 100 km",
    ),
    LeftOut(
        what="balls that have not found their place",
        size="gone after a few turns",
        advice="turn the wheel a few times before judging",
    ),
    LeftOut(
        what="rubbing of ball on ball",
        size="not known; small in a greased row with room to spare",
        advice="never one ball too many",
    ),
    LeftOut(
        what="wear, water and grit",
        size="they end most hubs",
        advice="clean, inspect and grease; no curve here foretells them",
    ),
)
"""What is left out. A test computes the sizes again; the advice is common practice, no source."""


def published_checks() -> tuple[PublishedCheck, ...]:
    """Compute every check now, from the contact of one ball to whole hubs.

    Raises:
        NotConverged: no balance of forces was found.

    >>> checks = published_checks()
    >>> len(checks) > 60, [each.what for each in checks if not each.holds]
    (True, [])
    """
    return (*component_checks(), *_preloaded_pair(), *_thrust_bearing(), *_sjovall())


def whole_hub_check(scenario: Scenario) -> PublishedCheck:
    """Return the upper edge of a scenario's drag, set to the middle of its good range, beside whole hubs' measured.

    The hubs measured were turned slowly and greased, as the upper edge takes them.

    Raises:
        NotConverged: no balance of forces was found.
    """
    found = against_quoted(scenario, end_play=window_of(scenario).target)
    lower, _ = found.factors
    return check(
        "Martin1998",
        f"turning torque of one ridden wheel at {found.road_speed:g} m/s, upper edge of its band",
        "N·mm",
        found.quoted * 1e3,
        found.computed.total_upper * 1e3,
        tolerance=1 - 1 / QUOTED_FACTOR,
        reason=f"other hubs, other grease, other seals; the lower edge is {lower:.2f} of what was measured",
        status="seen",
    )


def _preloaded_pair() -> Iterator[PublishedCheck]:
    """Yield the axial load that unloads one of two rows preloaded against each other, angle standing still."""
    row = Row(
        ball_diameter=6.35e-3, ball_count=9, pitch_diameter=20e-3, contact_angle=radians(40), young=206e9
    )
    pair, end_play = Pair(left=row, right=row, row_spacing=60e-3), -4e-8
    preload = float(solve_pair(pair, end_play=end_play, load=np.zeros(5)).preload)
    for shift, ratio in ((0.25, 0.7480), (0.5, 1.4836), (1.0, 2.8284)):
        found = solve_pair(pair, end_play=end_play, load=(ratio * preload, 0, 0, 0, 0))
        yield check(
            "closed form",
            f"preloaded pair under {ratio} times its preload: shift over approach",
            "",
            shift,
            found.shell_motion[0] / (-end_play / 2),
            status="computed",
            reason="the contact angle turns a little",
        )


def _thrust_bearing() -> Iterator[PublishedCheck]:
    """Yield the book's angular-contact bearing under thrust, with its own contact constant."""
    row = Row(
        ball_diameter=22.23e-3,
        ball_count=16,
        pitch_diameter=125.3e-3,
        contact_angle=radians(40),
        cone_conformity=0.5232,
        cup_conformity=0.5232,
        young=207e9,
    )
    hubs = arrays_of_pair(Pair(left=row, right=row, row_spacing=0.2))
    constant = 896.7e6 * row.ball_diameter**2 / ((2 * 0.5232 - 1) * row.ball_diameter) ** 1.5
    books = hubs._replace(right=hubs.right._replace(load_constant=np.array([constant])))
    found = solve_hubs(books, end_play=0.0, load=(17.8e3, 0, 0, 0, 0))
    memory = {"status": "from memory", "tolerance": 2e-3}
    name = "218 bearing, 17.8 kN thrust, the book's constant"
    angle = degrees(found.right.contact_angle[0])
    yield check("HarrisKotzalas2007", f"{name}: contact angle", "°", 41.6, angle, **memory)
    way = found.shell_motion[0] * 1e3
    yield check("HarrisKotzalas2007", f"{name}: approach", "mm", 0.0383, way, **memory)


def _sjovall() -> Iterator[PublishedCheck]:
    """Yield Sjövall's integrals of the load zone, read off a solved hub with sixty balls a side."""
    row = Row(ball_diameter=6.35e-3, ball_count=60, pitch_diameter=0.14, contact_angle=radians(40))
    for extent, radial, axial in ((0.3, 0.1892, 0.2110), (0.5, 0.2288, 0.2782), (1.0, 0.2546, 0.4244)):
        found, row_load = _load_zone(row, extent, radial)
        most = row.ball_count * float(found.right.ball_load.max())
        rest = {"tolerance": 2e-3, "reason": "sixty balls for a continuous ring", "status": "computed"}
        in_plane = row_load / (most * cos(row.contact_angle))
        yield check("Sjövall's integrals", f"load zone ε {extent:g}: Jr", "", radial, in_plane, **rest)
        along = float(found.preload) / (most * sin(row.contact_angle))
        yield check("Sjövall's integrals", f"load zone ε {extent:g}: Ja", "", axial, along, **rest)
        if extent == 0.5:
            rest["status"] = "seen"
            yield check("Stribeck", "half the balls loaded: worst over mean", "", 4.37, 1 / in_plane, **rest)


def _load_zone(row: Row, extent: float, radial: float) -> tuple[PairSolution, float]:
    """Return a hub whose load zone is `extent`, and the radial load on each of its rows [N].

    Displacements of a tenth of a micrometre, so that the contact angle stands as still as the integrals assume.
    """
    way = 1e-7
    axial_way = (2 * extent - 1) * way / tan(row.contact_angle)
    approach = axial_way * sin(row.contact_angle) + way * cos(row.contact_angle)
    heaviest = float(arrays_of_row(row).load_constant[0]) * approach**1.5
    row_load = row.ball_count * heaviest * cos(row.contact_angle) * radial
    pair = Pair(left=row, right=row, row_spacing=0.3)
    return solve_pair(pair, end_play=-2 * axial_way, load=(0, 2 * row_load, 0, 0, 0)), row_load
