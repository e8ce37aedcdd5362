"""What no turn of the cone puts right: what is wrong with a hub as it is described, and what would cure it."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import hypot

from conemodel.base.units import DEG, MM, NEWTON_MM, UM
from conemodel.parts.axle import Axle
from conemodel.parts.bearing import Dents, RowCondition, RowGeometry
from conemodel.parts.hub import SIDES, Side
from conemodel.parts.scenario import Scenario
from conemodel.physics.packing import ball_room
from conemodel.tasks.headline import Answer

THICK = 30e-3
"""Torque of grease and seals from which an even drag is felt [N·m]. Assumption."""

FULL_ROW = 1.0
"""Room from which one more ball would go in [ball widths]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Defect:
    """One thing the cone cannot put right.

    Attributes:
        short: what it is in a few words, for the largest type; empty where that is a question only.
        what: it is; cure: what would help. Sentences, the cures common practice, no source.
        sure: it is a defect; otherwise it may be intended, and is put as a question.
        cause: its name among `parts.priors.CAUSES`, where a check finds it from sizes as well.
    """

    short: str
    what: str
    cure: str
    sure: bool
    cause: str = ""

    @property
    def answer(self) -> Answer | None:
        """What it says to whether the hub is sound; None where it is not to be told from here."""
        if not self.short:
            return None
        head = "Will not come right by the cone alone" if self.sure else "Count the balls first"
        return Answer(words=f"{head}: {self.short}", why=self.what, act=self.cure)


def defects_of(scenario: Scenario) -> tuple[Defect, ...]:
    """Return what is wrong with a scenario's hub whatever its setting, defects before questions.

    >>> from conemodel.parts.toml_files import load_scenario
    >>> defects_of(load_scenario("scenarios/touring-rear.toml"))
    ()
    >>> defects_of(load_scenario("scenarios/big-ball.toml"))[0].what
    'In the left row one ball is 20 µm larger than the others.'
    """
    condition = scenario.condition
    found = [
        *(each for side in SIDES for each in _on_row(side, getattr(condition, side))),
        *_on_thread(scenario.axle),
        *_on_grease_and_seals(scenario),
        *_on_packing(scenario),
        *_on_unlike_rows(scenario),
    ]
    return tuple(sorted(found, key=lambda each: not each.sure))


def _on_row(side: Side, row: RowCondition) -> Iterator[Defect]:
    """Yield what is wrong in one row."""
    yield from _on_dents(f"{side} cone", row.cone_dents, "Replace the cone, and all the balls with it.")
    yield from _on_dents(
        f"{side} cup",
        row.cup_dents,
        "A cup can seldom be replaced: ask for one, or expect to need a new hub.",
    )
    yield from _on_tilt(side, row)
    yield from _on_balls(side, row)


def _on_dents(race: str, dents: Dents, cure: str) -> Iterator[Defect]:
    deep = f"{UM.from_si(dents.depth):g} µm deep"
    if dents.count:
        what = (
            f"The {race} is brinelled: {dents.count} dents at ball spacing, {deep}, pressed in by the balls."
        )
        yield Defect(short=f"{race} dented", what=what, cure=cure, sure=True)
    if dents.positions:
        what = f"The {race} has {len(dents.positions)} pits, {deep}."
        yield Defect(short=f"{race} pitted", what=what, cure=cure, sure=True)


def _on_tilt(side: Side, row: RowCondition) -> Iterator[Defect]:
    """Yield skew races; one alone is absorbed by the shell, both together pinch once a turn."""
    cone, cup = (hypot(*tilt) for tilt in (row.cone_tilt, row.cup_tilt))
    short = f"{side} cone and cup askew" if cone and cup else f"{side} {'cone' if cone else 'cup'} askew"
    if cone and cup:
        what = (
            f"On the {side} the cone stands {DEG.from_si(cone):.2f}° askew and the cup "
            f"{DEG.from_si(cup):.2f}°: once pinched it is tight in one place of every turn, and loose in another."
        )
        cure = "Roll the axle on a flat plate, look at the locknut's face and the seat of the cup: true them first."
    elif cone:
        what = (
            f"The {side} cone stands {DEG.from_si(cone):.2f}° askew: a bent axle or a locknut face out of square. "
            "The shell gives way to it, so fingers feel nothing."
        )
        cure = "Roll the axle on a flat plate all the same: a bent axle breaks in the end."
    elif cup:
        what = (
            f"The {side} cup stands {DEG.from_si(cup):.2f}° askew in the shell. "
            "The wheel wobbles with it; the cone is not at fault."
        )
        cure = "See whether the cup is fully home in the shell."
    else:
        return
    yield Defect(short=short, what=what, cure=cure, sure=True)


def _on_balls(side: Side, row: RowCondition) -> Iterator[Defect]:
    """Yield balls unlike the others of their row."""
    sizes = row.ball_oversize
    if not isinstance(sizes, tuple) or len(set(sizes)) == 1:
        return  # balls all alike, if of another size, only shift where the cone comes to stand
    usual = sorted(sizes)[len(sizes) // 2]
    odd = [size - usual for size in sizes if size != usual]
    if len(odd) == 1:
        way = "larger" if odd[0] > 0 else "smaller"
        what = f"In the {side} row one ball is {UM.from_si(abs(odd[0])):g} µm {way} than the others."
    else:
        spread = UM.from_si(max(sizes) - min(sizes))
        what = f"In the {side} row {len(odd)} balls differ from the others; they spread over {spread:g} µm."
    cure = "Renew all balls of both rows together, from one packet."
    yield Defect(short=f"odd balls on the {side}", what=what, cure=cure, sure=True)


def _on_thread(axle: Axle) -> Iterator[Defect]:
    """Yield a thread with more slack, as measured, than its class allows."""
    if axle.backlash > axle.most_backlash:
        slack, most = (f"{MM.from_si(length):.3f} mm" for length in (axle.backlash, axle.most_backlash))
        yield Defect(
            short="the thread is worn out",
            what=f"The cone has {slack} of slack on its thread, where {most} is the most its class allows.",
            cure="Renew axle and cone before anything is adjusted.",
            sure=True,
            cause="worn_thread",
        )


def _on_grease_and_seals(scenario: Scenario) -> Iterator[Defect]:
    if scenario.condition.grease == "dry":
        yield Defect(
            short="the grease has dried",
            what="The grease has dried: its oil is gone and what is left is stiff.",
            cure="Strip, clean, look at the races, and grease afresh; backing off the cone would only hide it.",
            sure=True,
        )
    drag = scenario.condition.seal_torque
    if drag >= THICK:
        yield Defect(
            short="the seals drag",
            what=f"The seals drag with {NEWTON_MM.from_si(drag):g} N·mm, whatever the cone does.",
            cure="See whether a seal or dust cap rubs, is bent or sits askew.",
            sure=True,
        )


def _on_packing(scenario: Scenario) -> Iterator[Defect]:
    """Yield rows that would take another ball."""
    rooms = {side: _room(getattr(scenario.hub, side)) for side in SIDES}
    roomy = {side: room for side, room in rooms.items() if room >= FULL_ROW}
    if not roomy:
        return
    both = len(roomy) == 2 and rooms["left"] == rooms["right"]
    where = "Each row" if both else " and ".join(f"the {side} row" for side in roomy)
    room = " and ".join(_more_balls(value) for value in ([rooms["left"]] if both else roomy.values()))
    has = "has" if both or len(roomy) == 1 else "have"
    yield Defect(
        short="one may be missing",
        what=f"{where[0].upper()}{where[1:]} {has} room for {room}: one may be missing.",
        cure="Count them against the maker's number, which decides; what fell out is no proof of what belongs there.",
        sure=False,
    )


def _more_balls(room: float) -> str:
    """Return how many whole balls go into a room for so many.

    >>> _more_balls(3.1), _more_balls(1.0)
    ('3 more balls', '1 more ball')
    """
    balls = int(room)
    return f"{balls} more {'ball' if balls == 1 else 'balls'}"


def _room(row: RowGeometry) -> float:
    return float(
        ball_room(
            ball_diameter=row.ball_diameter, pitch_diameter=row.pitch_diameter, ball_count=row.ball_count
        )
    )


def _on_unlike_rows(scenario: Scenario) -> Iterator[Defect]:
    left, right = (getattr(scenario.hub, side).replace(phase=0.0) for side in SIDES)
    if left != right:
        each = " and ".join(
            f"{row.ball_count} balls of {MM.from_si(row.ball_diameter):.4g} mm at "
            f"{DEG.from_si(row.contact_angle):.0f}° on the {side}"
            for side, row in zip(SIDES, (left, right), strict=True)
        )
        yield Defect(
            short="",
            what=f"The two rows are not alike: {each}.",
            cure="Ask whether they are meant to be. Keep balls and cones of the two sides apart.",
            sure=False,
        )
