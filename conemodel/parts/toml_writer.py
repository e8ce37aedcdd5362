"""Parts as the lines of a TOML file, each value in its everyday unit and with as few digits as read back the same."""

import json
from typing import Any

from conemodel.base.units import Unit
from conemodel.parts.schema import Part, file_key, unit_of


def text_of(part: Part) -> str:
    """Return a part as the text of a file."""
    return text_of_lines(lines_of_part(part))


def text_of_lines(lines: list[str]) -> str:
    """Return the text of a file of these lines."""
    return "\n".join(lines).strip() + "\n"


def lines_of_part(part: Part, path: tuple[str, ...] = (), usual: Part | None = None) -> list[str]:
    """Return the lines of one table and of the tables below it; what is as in `usual` is left out."""
    own: list[str] = []
    below: list[str] = []
    same = dict(usual) if usual is not None and not type(part).given_whole else {}
    for name, field in type(part).model_fields.items():
        value = getattr(part, name)
        if field.exclude or (name in same and value == same[name]):
            continue
        if isinstance(value, Part):
            below += lines_of_part(value, (*path, name), same.get(name))
        elif value is not None:
            own.append(f"{file_key(name, field)} = {_literal(value, unit_of(field))}")
    header = [f"[{'.'.join(path)}]"] if path and own else []
    return [*header, *own, "", *below] if own else below


def _literal(value: Any, unit: Unit) -> str:
    """Return a value as TOML writes it, in the unit of the file."""
    if isinstance(value, tuple):
        return "[" + ", ".join(_literal(item, unit) for item in value) + "]"
    if isinstance(value, str | bool):
        return json.dumps(value, ensure_ascii=False)
    if isinstance(value, int):
        return str(value)
    return repr(_shortest(value, unit))


def _shortest(value: float, unit: Unit) -> float:
    """Return the shortest number in `unit` that reads back as the same SI value, or the nearest there is."""
    exact = unit.from_si(value)
    for digits in range(6, 18):
        short = float(f"{exact:.{digits}g}")
        if unit.to_si(short) == value:
            return short
    return exact
