"""Heat of brake or sun: what a hub ridden warmer than it was set gains or loses in end play."""

import numpy as np

from conemodel.parts.axle import YOUNG
from conemodel.parts.bearing import RowGeometry
from conemodel.parts.hub import SIDES
from conemodel.parts.scenario import Scenario
from conemodel.parts.shell import Shell
from conemodel.physics.heat import (
    EXPANSION,
    fit_taken_by_heat,
    pressed_ring_share,
    row_end_play_from_growth,
    thermal_growth,
)


def heat_length(scenario: Scenario) -> float:
    """Return what heat adds to end play over both rows [m].

    The shell carries its steel cups in the plane of the balls; the steel cones sit on the axle by the middles of
    their threads. What spacing leaves between the two is cone, not axle.
    """
    if scenario.heat.shell_warming == scenario.heat.axle_warming == 0.0:
        return 0.0
    return float(sum(_row_length(scenario, getattr(scenario.hub, side)) for side in SIDES))


def fit_lost_to_heat(scenario: Scenario) -> float:
    """Return how much of the cups' press fit on the diameter the scenario's heat takes off [m], of the worse row.

    The joint is as wide as the cups, or as the balls' track where nobody gives the cups' size.
    """
    hub, shell, warming = scenario.hub, scenario.hub.shell, scenario.heat.shell_warming
    tracks = (getattr(hub, side).cup_track_diameter for side in SIDES)
    taken = fit_taken_by_heat(
        joint=shell.cup_outer_diameter or max(tracks),
        ring_growth=EXPANSION["steel"] * warming,
        shell_growth=EXPANSION[shell.material] * warming,
    )
    return float(taken)


def cup_share(shell: Shell, row: RowGeometry) -> float:
    """Return how much of the shell's extra growth a row's cup follows [-]: thick rings where sizes are given."""
    if shell.cup_outer_diameter is None or shell.outer_diameter_at_cup is None:
        return shell.cup_follow
    return float(
        pressed_ring_share(
            bore=row.cup_track_diameter,
            joint=shell.cup_outer_diameter,
            outside=shell.outer_diameter_at_cup,
            ring_young=YOUNG["steel"],
            shell_young=YOUNG[shell.material],
        )
    )


def _row_length(scenario: Scenario, row: RowGeometry) -> float:
    """Return what heat adds to end play at one row [m]."""
    hub, axle = scenario.hub, scenario.axle
    shell_warm, axle_warm = scenario.heat.shell_warming, scenario.heat.axle_warming
    steel, shell = EXPANSION["steel"], EXPANSION[hub.shell.material]
    half, thread = hub.row_spacing / 2, scenario.cone_distance / 2
    along = row.ball_diameter / 2 * np.sin(row.contact_angle)
    track, cone_track = row.cup_track_diameter / 2, row.pitch_diameter - row.cup_track_diameter / 2
    cup_strain = steel + cup_share(hub.shell, row) * (shell - steel)

    def grown(length: float, expansion: float, warming: float) -> float:
        return float(thermal_growth(length=length, expansion=expansion, warming=warming))

    length = row_end_play_from_growth(
        contact_angle=row.contact_angle,
        cup_outboard=grown(half, shell, shell_warm) - grown(along, steel, shell_warm),
        cup_radial=grown(track, cup_strain, shell_warm),
        cone_outboard=grown(thread, EXPANSION[axle.material], axle_warm)
        - grown(thread - half - along, steel, axle_warm),
        cone_radial=grown(cone_track, steel, axle_warm),
        ball_growth=grown(row.ball_diameter, steel, axle_warm),
    )
    return float(length)
