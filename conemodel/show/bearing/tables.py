"""The tables of what the races and the hands feel, each declared once: for CSV, a terminal and a page."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain

import numpy as np

from conemodel.base.table import Column, Table, only_where
from conemodel.base.units import DEG, MM, MPA, NEWTON, NEWTON_MM, ONE, PERCENT, TURN, UM, Array, Unit
from conemodel.show.bearing.race_charts import peak_of
from conemodel.show.bearing.torque_charts import PART_WORDS, part_edges
from conemodel.show.formatting import STAGE_WORDS, number, torque_band
from conemodel.solve.wheel.coasting import Coast
from conemodel.tasks.bearing.ball_loads import Loads, RowLoads, Worst
from conemodel.tasks.bearing.feel_when_turned import Signature
from conemodel.tasks.bearing.load_cases import Case
from conemodel.tasks.bearing.race_sweep import RacesSweep
from conemodel.tasks.bearing.rocking import Rocking
from conemodel.tasks.validation.published_check import PublishedCheck


def list_races(races: RacesSweep) -> Table[RacesSweep]:
    """Return the table of the sweep of pressure, drag, spin time and life, a line for each position of the cone.

    Where the model does not hold, only the position and the end play are given.
    """
    cases = list(races.worst)
    position: tuple[Column[RacesSweep], ...] = (
        Column(lambda s: s.cone_angle, DEG, "cone_out_deg", text="cone out °", form=".1f", left=True),
        Column(lambda s: s.end_play, MM, "end_play_clamped_mm", text="clamped mm", form="+.3f"),
    )
    found: tuple[Column[RacesSweep], ...] = (
        *chain.from_iterable(map(_worst, cases)),
        *map(_peak, cases),
        Column(lambda s: s.drag.load, NEWTON_MM, "drag_load_nmm"),
        Column(lambda s: s.drag.load_upper, NEWTON_MM, "drag_load_upper_nmm"),
        Column(lambda s: s.drag.grease, NEWTON_MM, "drag_grease_nmm"),
        Column(lambda s: s.drag.seals, NEWTON_MM, "drag_seals_nmm"),
        Column(lambda s: s.drag.total, NEWTON_MM, "drag_total_nmm", text="drag N·mm", form=".1f"),
        Column(lambda s: s.drag.total_upper, NEWTON_MM, "drag_total_upper_nmm", text="up to", form=".1f"),
        Column(lambda s: s.spin_time, ONE, "spin_time_s", text="spins s", form=".0f"),
        Column(lambda s: s.life.mixed, PERCENT, text="life %", form=".0f"),
        Column(lambda s: s.life.mixed, ONE, "life_mixed_share_of_best"),
        *map(_life_alone, races.life.alone),
    )
    return Table((*position, *only_where(lambda swept: swept.valid, found)), (races,))


_WORST: Mapping[str, Unit] = {"ball_load": NEWTON, "cone_pressure": MPA, "cup_pressure": MPA, "dent": UM}
"""What is worst under a load, by field of `Worst`."""


def _worst(case: Case) -> Iterator[Column[RacesSweep]]:
    """Yield the columns of what is worst under one load, by name and by both ends of the groove."""
    for name, unit in _WORST.items():
        for suffix, end in (("", "value"), ("_low", "low"), ("_high", "high")):
            yield Column(_field(case, name, end), unit, f"{case}_{name}_{unit.suffix}{suffix}")


def _field(case: Case, name: str, end: str) -> Callable[[RacesSweep], Array]:
    return lambda races: np.asarray(getattr(getattr(races.worst[case], name), end))


def _peak(case: Case) -> Column[RacesSweep]:
    return Column(lambda s: peak_of(s.worst[case]).value, MPA, text=f"{case} MPa", form=".0f")


def _life_alone(case: Case) -> Column[RacesSweep]:
    return Column(lambda s: s.life.alone[case], ONE, f"life_{case}_share_of_best")


@dataclass(frozen=True, slots=True)
class Ring:
    """One row of balls: the side it stands on and what its balls carry."""

    side: str
    row: RowLoads

    @property
    def balls(self) -> range:
        """The numbers of its balls."""
        return range(1, self.row.ball_load.size + 1)

    def ellipses(self) -> list[str]:
        """Return the contacts on the cone in words: across and along the track [mm]."""
        axes = zip(self.row.cone_semi_major.tolist(), self.row.cone_semi_minor.tolist(), strict=True)
        return [f"{2 * MM.from_si(across):.2f} × {2 * MM.from_si(along):.2f}" for across, along in axes]


_BALLS: tuple[Column[Ring], ...] = (
    Column(lambda ring: ring.side, key="row"),
    Column(lambda ring: list(ring.balls), key="ball"),
    Column(lambda ring: [f"{ring.side} {ball}" for ball in ring.balls], page="Ball"),
    Column(lambda ring: ring.row.azimuth, DEG, "azimuth_deg", page="Stands at °", form=".0f"),
    Column(lambda ring: ring.row.ball_load, NEWTON, "ball_load_n", page="N", form=".0f"),
    Column(lambda ring: ring.row.contact_angle, DEG, "contact_angle_deg", page="Contact °", form=".1f"),
    Column(lambda ring: ring.row.cone_pressure, MPA, "cone_pressure_mpa", page="Cone MPa", form=".0f"),
    Column(lambda ring: ring.row.cup_pressure, MPA, "cup_pressure_mpa", page="Cup MPa", form=".0f"),
    Column(lambda ring: 2 * ring.row.cone_semi_major, MM, "cone_ellipse_across_mm"),
    Column(lambda ring: 2 * ring.row.cone_semi_minor, MM, "cone_ellipse_along_mm"),
    Column(lambda ring: 2 * ring.row.cup_semi_major, MM, "cup_ellipse_across_mm"),
    Column(lambda ring: 2 * ring.row.cup_semi_minor, MM, "cup_ellipse_along_mm"),
    Column(lambda ring: ring.ellipses(), page="Ellipse on cone mm"),
)


def list_balls(loads: Loads) -> Table[Ring]:
    """Return the table of what every ball carries, a line for each ball of both rows."""
    rings = (Ring("left", loads.left), Ring("right", loads.right))
    return Table(_BALLS, rings, caption="Every ball where one is pressed hardest")


_STAGE_LOADS: tuple[Column[tuple[str, Worst]], ...] = (
    Column(lambda s: STAGE_WORDS[s[0]], page="With the end play of"),
    Column(lambda s: s[1].end_play, MM, page="mm", form="+.3f"),
    Column(lambda s: s[1].ball_load.value, NEWTON, page="Worst ball N", form=".0f"),
    Column(lambda s: peak_of(s[1]).value, MPA, page="Peak MPa", form=".0f"),
    Column(lambda s: _pressures(s[1]), page="by groove"),
    Column(lambda s: _margin(float(s[1].margin.value)), page="Margin"),
    Column(lambda s: s[1].dent.value, UM, page="Dent µm", form=".2f"),
)


def list_stage_loads(stages: Mapping[str, Worst]) -> Table[tuple[str, Worst]]:
    """Return the table of the worst under one load at the end play of every stage, for a page."""
    caption = "The worst under this load at the end play of every stage"
    return Table(_STAGE_LOADS, list(stages.items()), caption=caption)


def _pressures(worst: Worst) -> str:
    peak = peak_of(worst)
    return f"{MPA.from_si(float(peak.low)):.0f} to {MPA.from_si(float(peak.high)):.0f}"


def _margin(margin: float) -> str:
    return f"{margin:.2f}" if np.isfinite(margin) else "no load"


def list_torque(found: Signature) -> Table[Signature]:
    """Return the table of the torque at each angle of the wheel."""
    columns: tuple[Column[Signature], ...] = (
        Column(lambda s: s.angle, DEG, "wheel_deg"),
        Column(lambda s: s.torque, NEWTON_MM, "torque_nmm"),
    )
    return Table(columns, (found,))


Named = tuple[str, float, float]
"""What a torque is, and both edges of its band [N·m]."""

_TORQUES: tuple[Column[Named], ...] = (
    Column(lambda named: named[0], text="turning torque", page="Torque", left=True),
    Column(lambda named: torque_band(*named[1:]), text="N·mm", page="N·mm"),
)


def list_torque_parts(found: Signature) -> Table[Named]:
    """Return the table of what makes the turning torque, and what it comes to."""
    drag = found.drag
    parts = [(words, *part_edges(drag, part)) for part, words in PART_WORDS.items()]
    together = ("all together", float(drag.total), float(drag.total_upper))
    return Table(_TORQUES, [*parts, together, _exactly("varies over the turns by", found.variation)])


def list_torque_variation(found: Signature, felt_from: float) -> Table[Named]:
    """Return the table of level and variation of the torque; a change of `felt_from` [N·m] is felt."""
    named = [
        ("Level", found.level, float(found.drag.total_upper)),
        _exactly("Varies by", found.variation),
        _exactly("of that once a turn of the wheel", found.once_per_turn),
        _exactly("of that with the balls, slower", found.with_the_balls),
        _exactly("Ripple, faster than both, up and down", found.ripple),
        _exactly("A change is felt from", felt_from),
    ]
    return Table(_TORQUES, named, caption="Level and variation of the turning torque")


def _exactly(words: str, torque: float) -> Named:
    return words, torque, torque


def list_spin(found: Coast) -> Table[Coast]:
    """Return the table of the speed of a freely spinning wheel over time."""
    columns: tuple[Column[Coast], ...] = (
        Column(lambda s: s.time, ONE, "time_s"),
        Column(lambda s: s.speed, TURN, "speed_turns_per_s"),
        Column(lambda s: s.turned, TURN, "turned_turns"),
    )
    return Table(columns, (found,))


def list_rocking(bench: Rocking, frame: Rocking) -> Table[Rocking]:
    """Return the table of force and movement of the rim on the bench and in the frame, bearing and wheel apart."""
    columns: tuple[Column[Rocking], ...] = (
        Column(lambda _: bench.force, NEWTON, "push_n"),
        Column(lambda _: bench.bearing, MM, "bench_bearing_mm"),
        Column(lambda _: frame.bearing, MM, "frame_bearing_mm"),
        Column(lambda _: frame.wheel, MM, "wheel_flex_mm"),
    )
    return Table(columns, (frame,))


_MOVEMENT: tuple[Column[tuple[str, Rocking]], ...] = (
    Column(lambda s: s[0], page="mm, both ways"),
    Column(lambda s: s[1].dead_band, MM, page="Free play", form=".2f"),
    Column(lambda s: s[1].contact, MM, page="Bearing gives", form=".2f"),
    Column(lambda s: s[1].wheel[-1] - s[1].wheel[0], MM, page="Wheel flexes", form=".2f"),
)


def list_movement(bench: Rocking, frame: Rocking) -> Table[tuple[str, Rocking]]:
    """Return the table of how far the rim moves on the bench and in the frame, for a page."""
    places = (("Bench, locked", bench), ("Frame, clamped", frame))
    return Table(_MOVEMENT, places, caption="Movement of the rim")


_CHECKS: tuple[Column[PublishedCheck], ...] = (
    Column(lambda one: one.what, key="what"),
    Column(
        lambda one: one.what + (f" [{one.unit}]" if one.unit else ""), text="what", page="What", left=True
    ),
    Column(lambda one: one.source, text="source", left=True),
    Column(lambda one: one.status, text="known", left=True),
    Column(lambda one: one.unit, key="unit"),
    Column(lambda one: one.published, key="published", text="published", page="Published", form=".5g"),
    Column(lambda one: one.computed, key="computed", text="computed", page="Computed", form=".5g"),
    Column(lambda one: one.deviation, key="deviation", text="deviation", form="+.2%"),
    Column(lambda one: f"{number(100 * one.deviation, 2, sign=True)} %", page="Deviation"),
    Column(lambda one: one.tolerance, key="allowed", text="allowed", form=".2%"),
    Column(
        lambda one: f"{100 * one.tolerance:.2g} %" + (f": {one.reason}" if one.reason else ""), page="Allowed"
    ),
    Column(lambda one: "yes" if one.holds else "no", key="holds", page="Holds"),
    Column(lambda one: "yes" if one.holds else "NO", text="holds"),
    Column(lambda one: one.reason, key="why_so_much"),
    Column(lambda one: one.status, key="known", page="Known"),
    Column(lambda one: one.source, key="source", page="Source"),
)


def list_checks(checks: Sequence[PublishedCheck]) -> Table[PublishedCheck]:
    """Return the table of published values beside the computed ones."""
    return Table(_CHECKS, checks, caption="Published values beside the computed ones")
