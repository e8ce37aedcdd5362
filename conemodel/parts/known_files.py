"""Files of what is known of a hub: a family, the sizes that are known, and whatever else a scenario file may say."""

from collections.abc import Mapping
from typing import Any

from conemodel.base.errors import InputProblems
from conemodel.parts.foreign_file import parse
from conemodel.parts.hub_families import FAMILIES
from conemodel.parts.known_hub import KnownHub
from conemodel.parts.known_scenario import KnownScenario
from conemodel.parts.schema import file_key
from conemodel.parts.toml_reader import Reader, first_problems, lines_of_text
from conemodel.parts.toml_writer import lines_of_part, text_of_lines

FAMILY = "family"
"""The key that only such a file has."""

KNOWN_KEYS = frozenset(file_key(name, field) for name, field in KnownHub.model_fields.items())
"""What may stand at the top of such a file; name and story too, as in any scenario."""

_PLACES: dict[tuple[str, ...], str] = {
    ("hub", "over_locknut_width_mm"): "over_locknut_width_mm",
    ("hub", "left", "ball_count"): "ball_count_left",
    ("hub", "left", "ball_diameter_mm"): "ball_diameter_left_mm",
    ("hub", "right", "ball_count"): "ball_count_right",
    ("hub", "right", "ball_diameter_mm"): "ball_diameter_right_mm",
    ("stack", "left", "protrusion_mm"): "protrusion_left_mm",
    ("stack", "right", "protrusion_mm"): "protrusion_right_mm",
    ("frame", "dropout_width_mm"): "dropout_width_mm",
    ("frame", "dropout_thickness_mm"): "dropout_thickness_mm",
    ("axle", "material"): "material",
    ("clamp", "force_n"): "clamp_force_n",
}
"""Where a whole scenario has what is known: a file may say it there too, and all else is made to fit it."""


def read_known(text: str, table: Mapping[str, Any], *, name: str) -> KnownScenario:
    """Return the hub of a file that says what is known of it; `table` is its `text` as parsed, `name` its name.

    Raises:
        InputProblems: what cannot be used, with every mistake.
    """
    reader = Reader(name, lines_of_text(text))
    sizes = {key: value for key, value in table.items() if key in KNOWN_KEYS or _is_strange(key, value)}
    rest = {key: value for key, value in table.items() if key not in sizes}
    for place, key in _PLACES.items():
        left, value = _take_out(rest, place)
        if value is not None and key not in sizes:
            rest, sizes[key] = left, value
            reader.lines[(key,)] = reader.lines.get(place, 0)
    known, problems = reader.part(KnownHub, sizes, ())
    usual = KnownScenario.of(known or KnownHub(family=_some_family(table)))
    whole, more = reader.part(KnownScenario, rest, (), usual)
    if known is None or whole is None or problems + more:
        raise InputProblems(first_problems(problems + more, name))
    return whole


def known_text(scenario: KnownScenario) -> str | None:
    """Return the file of a hub by what is known of it; None where such a file cannot say all that was changed."""
    changed = lines_of_part(scenario, usual=KnownScenario.of(scenario.known))
    tables = next((number for number, line in enumerate(changed) if line.startswith("[")), len(changed))
    text = text_of_lines([*changed[:tables], *lines_of_part(scenario.known), *changed[tables:]])
    try:
        back = read_known(text, parse(text, name=FAMILY)[1], name=FAMILY)
    except InputProblems:
        return None
    return text if back == scenario else None


def _is_strange(key: str, value: Any) -> bool:
    """Return whether what stands at the top of a file is nothing of a scenario: most likely a misspelt size."""
    whole = (file_key(name, field) for name, field in KnownScenario.model_fields.items())
    return not isinstance(value, Mapping) and key not in whole


def _some_family(table: Mapping[str, Any]) -> str:
    """Return the family a file names, or another to hold the rest of it against."""
    named = table[FAMILY]
    return named if isinstance(named, str) and named in FAMILIES else next(iter(FAMILIES))


def _take_out(table: Mapping[str, Any], place: tuple[str, ...]) -> tuple[dict[str, Any], Any]:
    """Return a table without the value at a place in it, and that value, None where there is none."""
    key, *below = place
    if key not in table or (below and not isinstance(table[key], Mapping)):
        return dict(table), None
    if not below:
        return {name: value for name, value in table.items() if name != key}, table[key]
    inner, value = _take_out(table[key], tuple(below))
    return {**table, key: inner}, value
