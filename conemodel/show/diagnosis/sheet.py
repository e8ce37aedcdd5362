"""A checked hub on one sheet of A5: what was found largest, the turn and its chance, what to measure next, readings."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from conemodel.base.units import DEG, KILOMETRE, MM
from conemodel.parts.readings import Balls, Readings, Round, Size
from conemodel.show.diagnosis.field_names import label_of
from conemodel.show.diagnosis.tables import say_fault, say_none_fits, spelt_out
from conemodel.show.formatting import capital, degrees, number
from conemodel.show.headline import SIGNS
from conemodel.show.paper.flow import Block, write_blocks
from conemodel.show.paper.sheet import PAPERS, new_sheet
from conemodel.show.setting.text import CAUTION
from conemodel.tasks.diagnosis.diagnose import Diagnosis
from conemodel.tasks.diagnosis.looks import LOOKS
from conemodel.tasks.diagnosis.procedure import say_chance
from conemodel.tasks.diagnosis.readings import readings_taken
from conemodel.tasks.wording import direction

if TYPE_CHECKING:
    from matplotlib.figure import Figure

MARGIN = 10.0
"""Of the sheet [mm]."""

TO_WRITE = ("Wheel, tag", "Date", "By")
"""What is filled in by pen."""

MOST_STEPS, MOST_LINES = 3, 6
"""Measurements suggested, and lines that one of a list may take."""


def check_figure(diagnosis: Diagnosis) -> "Figure":
    """Return a checked hub on a sheet of A5, upright."""
    sheet = new_sheet(PAPERS["A5"])
    room, foot = sheet.width - 2 * MARGIN, sheet.height - MARGIN
    top = sheet.paragraph(
        (MARGIN, 8), f"Check of a hub: {diagnosis.readings.name}", room=room, size=9, most=2
    )
    sheet.line((MARGIN, top + 1), (sheet.width - MARGIN, top + 1))
    write_blocks(sheet, (MARGIN, top + 2), _blocks(diagnosis), room=room, foot=foot - 19)
    for place, words in enumerate(TO_WRITE):
        left = MARGIN + (0, 56, 94)[place]
        sheet.write((left, foot - 11), words, size=8.5)
        sheet.line(
            (left + 18 - 9 * (place > 0), foot - 11), (left + (52, 34, 34)[place], foot - 11), width=0.5
        )
    sheet.paragraph((MARGIN, foot - 8), CAUTION, room=room, size=8.5, bold=True)
    return sheet.figure


def _blocks(diagnosis: Diagnosis) -> Iterator[Block]:
    """Yield all that is said, the most serious first and the readings last."""
    headline = diagnosis.headline
    first = headline.answer
    sign = SIGNS.get(headline.question, "")
    yield Block(words=f"{sign} {first.words}".strip(), size=17, bold=True, gap=1.5)
    yield Block(words=first.certainty, size=11)
    yield Block(words=first.act, size=12, bold=True)
    yield Block(words=_chances(diagnosis), size=10)
    yield Block(words=" ".join(part for part in (first.why, first.more) if part))
    for answer in headline.below:
        yield Block(words=answer.sentence, bold=answer in headline.stops, gap=1.2)
    yield from _faults(diagnosis)
    ahead = diagnosis.next_steps[:MOST_STEPS]
    yield from _section("Measure next", [f"{capital(step.label)}: {step.why}." for step in ahead])
    yield from _section("Readings", list(_readings(diagnosis.readings)))
    believed = f"Computed for: {diagnosis.scenario.name}. What is believed beforehand is judgement."
    yield Block(words=believed, size=8, gap=1.5)


def _section(head: str, lines: list[str]) -> Iterator[Block]:
    """Yield a heading and the lines below it; nothing where there is none."""
    if lines:
        yield Block(words=head, size=11, bold=True, gap=2.5)
        yield from (Block(words=line, sign="–", most=MOST_LINES) for line in lines)


def _chances(diagnosis: Diagnosis) -> str:
    """Return how likely the hub is right, now and after the turn; empty where something else comes first."""
    if diagnosis.chance_right is None or diagnosis.headline.question != "adjustment":
        return ""
    measured, move = diagnosis.readings.play_measured, diagnosis.move
    said = [f"in the good range now: {say_chance(diagnosis.chance_right, measured=measured)}"]
    if move is not None:
        said += [
            f"after this turn: {say_chance(move.chance, measured=measured)}",
            f"too tight then: {say_chance(move.tight, measured=measured)}",
        ]
    return capital("; ".join(said))


def _faults(diagnosis: Diagnosis) -> Iterator[Block]:
    """Yield the faults no adjustment cures that are as likely as to be told, and what speaks for them."""
    told = [say_none_fits(diagnosis)]
    for fault in spelt_out(diagnosis):
        because = f"; {'; '.join(fault.evidence)}" if fault.evidence else ""
        told.append(f"{capital(fault.label)}: {say_fault(fault, diagnosis)}{because}")
    yield from _section("Faults no adjustment cures", [line for line in told if line])


def _readings(readings: Readings) -> Iterator[str]:
    """Yield what was told of the hub, then every reading in a line: each round, sizes, looks."""
    if readings.story:
        yield f"About these readings: {readings.story}"
    for place, look in enumerate(readings.rounds, start=1):
        read = [f"{reading.label}: {reading.describe(look)}" for reading in readings_taken(look)]
        yield f"{_round_words(place, look)}: {'; '.join(read) or 'nothing read'}"
    sizes = list(_sizes(readings))
    if sizes:
        yield "; ".join(sizes)
    for name, inspection in LOOKS.items():
        if (said := getattr(readings.checks, name)) is not None:
            yield f"{inspection.asked}: {said}"


def _round_words(place: int, look: Round) -> str:
    """Return which round it is, and what was done before it."""
    done = [f"{degrees(abs(look.turned))} {direction(look.turned)}"] if look.turned else []
    if look.was_ridden:
        far = look.ridden_distance
        done.append(f"ridden {KILOMETRE.from_si(far):g} km" if far else "ridden")
    return ", ".join([f"Round {place}" if place > 1 else "As found", *done])


def _sizes(readings: Readings) -> Iterator[str]:
    """Yield what was measured or counted on the parts."""
    for name, value in readings:
        if isinstance(value, Size) and value.size is not None:
            yield f"{label_of(name)} {number(MM.from_si(value.size), 2)} mm"
        elif isinstance(value, Balls):
            size = "" if value.diameter.size is None else f" {number(MM.from_si(value.diameter.size), 3)} mm"
            count = "" if value.count is None else f" {value.count}"
            if count or size:
                yield f"{label_of(name)}{count}{' ×' if count and size else ''}{size}"
    if readings.cone_out is not None:
        yield f"{label_of('cone_out')} {DEG.from_si(readings.cone_out):.0f}°"
    yield from (
        f"{label_of(name)} {value}" for name in ("thread", "clamp") if (value := getattr(readings, name))
    )
