"""A hub measured at marks as tables for a page, as text for a terminal and as JSON."""

import json
import textwrap

from conemodel.base.plain_text import one_line
from conemodel.base.table import Table, Words, table_of_words
from conemodel.base.units import MM
from conemodel.parts.known_doubts import doubts_of
from conemodel.show.real_hub.doubt_words import in_a_file
from conemodel.show.real_hub.measured_wording import (
    headline_words,
    known,
    next_words,
    reached_words,
    span_words,
    stands_words,
    worn_words,
)
from conemodel.show.real_hub.misfit_words import misfit_words
from conemodel.show.real_hub.wording import TRUTH, fits_words, found_words, model_words, reading_words
from conemodel.show.setting.text import CAUTION, WIDTH
from conemodel.tasks.real_hub.next_reading import Measuring
from conemodel.tasks.real_hub.reached import reached
from conemodel.tasks.real_hub.taken_over import is_read, measured_summary
from conemodel.tasks.real_hub.told import QUANTITIES_AT_MARKS

ASSUMED = "assumed: not read yet"
"""What stands where a quantity would be found."""


def list_known(measuring: Measuring) -> Table[Words]:
    """Return slack, clamp and finger contact, each with its range now and as assumed before, for a page."""
    lines = (
        (
            QUANTITIES_AT_MARKS[name].words.capitalize(),
            span_words(now) if is_read(measuring.fitted, name) else ASSUMED,
            span_words(measuring.fitted.interval_before(QUANTITIES_AT_MARKS[name].of)),
        )
        for name, now in known(measuring).items()
    )
    return table_of_words("What the readings tell", ("Unknown", "Found", "Assumed before"), lines)


def measured_text(measuring: Measuring) -> str:
    """Return the turn, what is known, every reading and what to do next as text for a terminal."""
    fitted = measuring.fitted
    said, below = headline_words(measuring)
    act, why = next_words(measuring)
    gauges, unmeasured = reached()
    unknowns = [
        f"{QUANTITIES_AT_MARKS[name].words}: {span_words(now)}"
        f"{'' if is_read(fitted, name) else f', {ASSUMED}'}"
        for name, now in known(measuring).items()
        if not measuring.doubt
    ]
    readings = [
        f"{reading_words(each.reading)}: {found_words(each)}, model {model_words(each, fitted.hub.lead)}; "
        f"{fits_words(fitted, place)}"
        for place, each in enumerate(fitted.readings)
    ]
    parts = (
        one_line(measuring.found.name),
        f"{said.removesuffix('.')}. {below}",
        stands_words(measuring.turn),
        f"Next: {act} {why}",
        in_a_file(measuring.doubt) if measuring.doubt else "",
        misfit_words(measuring),
        worn_words(measuring),
        *doubts_of(fitted.hub.scenario),
        "\n".join(f"  {line}" for line in unknowns),
        "\n".join(f"  {line}" for line in readings),
        f"{TRUTH} Computed for: {one_line(fitted.hub.scenario.name)}.",
        reached_words(gauges[measuring.found.read_by], unmeasured),
        CAUTION,
    )
    return "\n\n".join(part if "\n" in part else textwrap.fill(part, WIDTH) for part in parts if part)


def measured_json(measuring: Measuring) -> str:
    """Return the same as one JSON object, numbers not rounded."""
    summary = measured_summary(measuring)
    contact = known(measuring)["contact"]
    readings = [
        {
            "state": each.reading.state,
            "miss_mm": MM.from_si(each.miss),
            "standard_error_mm": MM.from_si(each.spread),
            "deleted_residual": each.deleted,
            "left_out": each.left_out,
            "clashes": place in measuring.fitted.clash,
        }
        for place, each in enumerate(measuring.fitted.readings)
    ]
    numbers = {
        "name": measuring.found.name,
        "hub": measuring.fitted.hub.scenario.name,
        "unsafe": [danger.sentence for danger in measuring.dangers],
        **{name: value for name, value in summary.items() if name != "readings"},
        "contact_mm": MM.from_si(contact.value),
        "contact_low80_mm": MM.from_si(contact.low),
        "contact_high80_mm": MM.from_si(contact.high),
        "readings": readings,
    }
    return json.dumps(numbers, indent=2, ensure_ascii=False)
