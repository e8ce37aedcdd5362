"""The closing gap: what became of one turn of the cone, stage under stage at one scale, each with what took it."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from conemodel.base.units import DEG, MM, NEWTON
from conemodel.show.formatting import STAGE_WORDS, number
from conemodel.show.instrument.bearing import cone_top
from conemodel.show.instrument.drawing import Box, Drawing, Group, Part, Plate, Point
from conemodel.show.instrument.drawing_of import drawing_of
from conemodel.show.instrument.measures import half_of
from conemodel.show.instrument.paths import Place, block
from conemodel.show.instrument.states import state_of
from conemodel.solve.stages.terms import STAGES, setting_terms
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.travel import most_loaded, took_words

SHOWN = (
    *("gap", "gap band", "gap shaft", "ball", "cone", "gap at ball", "gap at cone"),
    *("touches cone", "was backed_off", "was locked"),
)
"""Groups of the close view that a row shows; of them the ghost only of the stage before."""
SEEN = 5e-4
"""What is printed as nothing [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GapRow:
    """One stage.

    Attributes:
        stage: its name; state: of the drawing; plate: what is painted.
        title: the stage in words; size, sort: how much is open, play or squeeze; by: what took or gave it.
        way: opens, closes or stays.
    """

    stage: str
    state: dict[str, float]
    plate: Plate
    title: str
    size: str
    sort: str
    by: str
    way: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosingGap:
    """Everything on the sheet.

    Attributes:
        rows: the stages; box: what each shows [mm]; lower: the ball that carries, and lower_box: where it is.
        factor: how many times larger movement is drawn.
        title, lead, end, foot: its words.
    """

    rows: tuple[GapRow, ...]
    box: Box
    lower_box: Box
    factor: int
    title: str
    lead: str
    end: str
    foot: str


def closing_gap(prediction: Prediction) -> ClosingGap:
    """Return the sheet of a prediction."""
    window = prediction.window
    drawing = drawing_of(prediction.scenario, good=(window.tight_edge, window.loose_edge))
    plays = [float(MM.from_si(prediction.stages[stage].end_play)) for stage in STAGES]
    box = _box(prediction, drawing, plays)
    edge = next(
        part for group in drawing.plates["close"].groups for part in group.parts if part.name == "inset-edge"
    )
    corners = [tuple(map(float, point.split())) for point in edge.d.strip("MZ").split("L")]
    left, top = (min(corner[i] for corner in corners) - 0.15 for i in (0, 1))
    right, bottom = (max(corner[i] for corner in corners) + 0.15 for i in (0, 1))
    return ClosingGap(
        rows=tuple(_rows(prediction, drawing, plays, box)),
        box=box,
        lower_box=(left, top, right - left, bottom - top),
        factor=drawing.factor,
        title="The closing gap",
        lead=f"What became of {_turn(prediction)}. One ball, one cone, one enlargement.",
        end=_end(prediction),
        foot=_foot(prediction, drawing),
    )


def _box(prediction: Prediction, drawing: Drawing, plays: list[float]) -> Box:
    """Return what each row shows: three times as wide as high, from the cone's furthest place to the ball."""
    half = half_of(prediction.scenario, drawing.side)
    u, v = half.contact
    outboard = max(11.6 * half.scale, u + drawing.factor * max(plays) + 4.6 * half.scale)
    width = outboard + 2.9 * half.scale
    top = v - 1.55 * half.scale + width / 3
    return (-outboard if drawing.out < 0 else outboard - width, -top, width, width / 3)


def _rows(prediction: Prediction, drawing: Drawing, plays: list[float], box: Box) -> Iterator[GapRow]:
    took = took_words(prediction.scenario, setting_terms(prediction.scenario))
    load = NEWTON.from_si(float(most_loaded(prediction.stages["ridden"].solution)))
    for i, stage in enumerate(STAGES):
        now, before = plays[i], plays[i - 1] if i else 0.0
        # of what is printed, so that the numbers add up
        change = round(now, 3) - round(before, 3)
        way = "stays" if abs(change) < SEEN else "opens" if change > 0 else "closes"
        by = f"{took.get(stage, '')} {number(abs(change), 3)}" if way != "stays" else "nothing taken"
        if stage == "ridden":
            by = f"{load:.0f} N on a ball below" + ("" if way == "stays" else f"; {by}")
        yield GapRow(
            stage=stage,
            state=state_of(prediction, stage, factor=drawing.factor),
            plate=_row_plate(prediction, drawing, stage, (before, now), box),
            title=STAGE_WORDS[stage],
            size=number(abs(now), 3),
            sort="mm play" if now > 0 else "mm squeeze" if now < 0 else "mm",
            by=by[0].upper() + by[1:],
            way=way,
        )


def _row_plate(
    prediction: Prediction, drawing: Drawing, stage: str, ends: tuple[float, float], box: Box
) -> Plate:
    """Return the groups of one row, and the bar of what was given or taken, hung from where the race stood."""
    earlier = f"was {STAGES[max(STAGES.index(stage) - 1, 0)]}"
    wanted = [name for name in SHOWN if not name.startswith("was") or name == earlier]
    wanted += ["lower ball", "lower ball edge"] if stage == "ridden" else []
    wanted += ["should stand"] if stage in ("clamped", "ridden") else []
    close = drawing.plates["close"]
    half, place = half_of(prediction.scenario, drawing.side), Place(0.0, drawing.out)
    # cut off above its thread, which is not shown
    body = place.part("cone", [*cone_top(half), (half.cone_end, 0.0), (half.nose, 0.0)], "cone", title="cone")
    groups = [
        replace(group, parts=(body, *group.parts[1:])) if group.name == "cone" else group
        for group in close.groups
        if group.name in wanted
    ]
    if abs(ends[1] - ends[0]) >= SEEN:
        groups.append(Group(name="bar", parts=tuple(_bar(half.contact, place, drawing.factor, ends, box))))
    return replace(close, groups=tuple(groups), labels=())


def _bar(contact: Point, place: Place, factor: int, ends: tuple[float, float], box: Box) -> Iterator[Part]:
    """Yield the bar from where the race stood to where it stands, a plumb line from each to the race."""
    low = -(box[1] + box[3]) + 0.01 * box[2]
    high = low + 0.025 * box[2]
    a, b = (contact[0] + factor * end for end in ends)
    yield place.strokes("plumb", [[(u, high), (u, contact[1])] for u in (a, b)], "hidden")
    paint = "given" if ends[1] > ends[0] else "took"
    yield place.part("bar", block((min(a, b), low), (max(a, b), high)), paint)


def _turn(prediction: Prediction) -> str:
    """Return the turn of the cone in words."""
    angle = DEG.from_si(prediction.scenario.setting.back_off)
    way = "out" if angle >= 0 else "in"
    return "a quarter turn out" if round(angle, 1) == 90 else f"a turn of {number(abs(angle), 0)}° {way}"


def _end(prediction: Prediction) -> str:
    """Return what is left over and what to do."""
    answer = prediction.verdict.headline.answer
    said = f"{answer.words} ({answer.certainty})" if answer.certainty else answer.words
    return f"{said}. {answer.act}".replace("..", ".")


def _foot(prediction: Prediction, drawing: Drawing) -> str:
    """Return which hub it is, how large movement is drawn, and what is only assumed."""
    terms = [term.label for stage in prediction.stages.values() for term in stage.terms if term.assumed]
    assumed = f" Only assumed: {', '.join(dict.fromkeys(terms))}." if terms else ""
    return f"{prediction.scenario.name}. Movement is drawn {drawing.factor} times larger than the parts.{assumed}"
