"""A fitted real hub as tables for a page, as text for a terminal and as JSON."""

import json
import textwrap
from collections.abc import Mapping

from conemodel.base.plain_text import one_line
from conemodel.base.table import Table, Words, table_of_words
from conemodel.base.units import DEG, MINUTE, MM, NEWTON_MM
from conemodel.parts.real_hub import RealHubReadings
from conemodel.show.formatting import capital
from conemodel.show.real_hub.wording import (
    COUNTS_AS,
    ONLY_REAL,
    TRUTH,
    before_words,
    fits_words,
    found_words,
    headline_words,
    lock_words,
    misfit_words,
    model_words,
    reading_words,
    told_words,
)
from conemodel.show.setting.text import CAUTION, WIDTH
from conemodel.tasks.hand.estimate import Interval
from conemodel.tasks.real_hub.fit import Fitted
from conemodel.tasks.real_hub.lock_at import lock_at
from conemodel.tasks.real_hub.told import QuantityName, Told, what_is_told


def list_readings(fitted: Fitted) -> Table[Words]:
    """Return every reading beside what the fitted hub would show, for a page."""
    lines = (
        (
            capital(reading_words(checked.reading)),
            found_words(checked),
            model_words(checked, fitted.hub.lead),
            fits_words(fitted, place),
        )
        for place, checked in enumerate(fitted.readings)
    )
    return table_of_words("Every reading beside the model", ("Reading", "Yours", "Model's", "Fits"), lines)


def list_told(told: Mapping[QuantityName, Told]) -> Table[Words]:
    """Return every unknown with what the readings tell of it, for a page."""
    lines = ((one.quantity.words.capitalize(), told_words(one), before_words(one)) for one in told.values())
    return table_of_words("What the readings tell", ("Unknown", "Found", "Assumed before"), lines)


def real_hub_text(found: RealHubReadings, fitted: Fitted) -> str:
    """Return threshold, unknowns and readings as text for a terminal."""
    told = what_is_told(fitted)
    state, below = headline_words(told["felt_play"], fitted)
    unknowns = (f"{one.quantity.words}: {told_words(one)}" for one in told.values())
    readings = (
        f"{reading_words(checked.reading)}: {found_words(checked)}, model {model_words(checked, fitted.hub.lead)}; "
        f"{fits_words(fitted, place)}"
        for place, checked in enumerate(fitted.readings)
    )
    parts = (
        one_line(f"{found.name}{f', felt by {found.hand}' if found.hand else ''}"),
        f"{state}{'' if state.endswith('?') else '.'} {below}",
        misfit_words(fitted),
        lock_words(lock_at(fitted)),
        "\n".join(f"  {line}" for line in unknowns),
        "\n".join(f"  {line}" for line in readings),
        f"{TRUTH} Computed for: {one_line(fitted.hub.scenario.name)}.",
        COUNTS_AS,
        ONLY_REAL,
        CAUTION,
    )
    return "\n\n".join(part if "\n" in part else textwrap.fill(part, WIDTH) for part in parts if part)


def real_hub_json(found: RealHubReadings, fitted: Fitted) -> str:
    """Return the same as one JSON object, numbers not rounded."""
    told = what_is_told(fitted)
    lead = fitted.hub.lead
    numbers = {
        "name": found.name,
        "hand": found.hand,
        "hub": fitted.hub.scenario.name,
        "unknowns": {
            name: {
                "told": one.told,
                "given": one.given,
                **_ends("mm", one.now, MM.per_si),
                **_ends("assumed_mm", one.before, MM.per_si),
                "tied_to": one.tied_to.name if one.tied_to else None,
                "together": _ends("mm", one.together, MM.per_si) if one.together else None,
            }
            for name, one in told.items()
        },
        "contradictions": [
            {"kind": each.kind, "readings": list(each.readings), "apart_minutes": MINUTE.from_si(each.apart)}
            for each in fitted.contradictions
        ],
        "felt_drag": _ends("nmm", fitted.interval(lambda shown: shown.felt_drag), NEWTON_MM.per_si),
        "felt_play_turn": _ends("deg", fitted.interval(lambda shown: shown.felt_play_at / lead), DEG.per_si),
        "readings": [
            {
                "reading": reading_words(checked.reading),
                "found": found_words(checked),
                "miss_mm": MM.from_si(checked.miss),
                "standard_error_mm": MM.from_si(checked.spread),
                "deleted_residual": checked.deleted,
                "left_out": checked.left_out,
                "clashes": place in fitted.clash,
            }
            for place, checked in enumerate(fitted.readings)
        ],
    }
    return json.dumps(numbers, indent=2, ensure_ascii=False)


def _ends(name: str, span: Interval, per_si: float) -> dict[str, float]:
    """Return an interval by names that end in its unit."""
    ends = {"": span.value, "low80_": span.low, "high80_": span.high}
    return {f"{end}{name}": value * per_si for end, value in ends.items()}
