"""A scenario with what a person typed over it: the same words on the command line, in a link and on screen."""

import math
import re
from collections.abc import Mapping
from typing import Any

from conemodel.base.errors import InputProblems, Problem
from conemodel.base.units import DEG, TURN
from conemodel.parts.mounting import Clamp
from conemodel.parts.part import Part, PartProblems, file_key
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import Setting

_FRACTION = re.compile(r"^\s*([+-]?)\s*(?:(\d+)\s+)?(\d+)\s*/\s*(\d+)\s*$")
_DEGREES = re.compile(r"^\s*([+-]?\d+(?:\.\d*)?)\s*(?:°|deg|degrees)\s*$")

TURN_FORMS = "must be a fraction of a turn (1/4), a decimal (0.25) or degrees (90deg)"


def parse_turn(text: str) -> float:
    """Return a turn as typed, in [rad]: ``1/4``, ``1 1/8``, ``0.25``, ``90deg``, ``90°``; positive is out.

    Errors: ValueError with the forms that are understood.

    >>> round(parse_turn("1/4"), 6), round(parse_turn("90deg"), 6), round(parse_turn("0.25"), 6)
    (1.570796, 1.570796, 1.570796)
    """
    if match := _FRACTION.match(text):
        sign, whole, part, of = match.groups()
        if int(of) == 0:
            raise ValueError(TURN_FORMS)
        turns = int(whole or 0) + int(part) / int(of)
        return TURN.to_si(-turns if sign == "-" else turns)
    if match := _DEGREES.match(text):
        return DEG.to_si(float(match[1]))
    try:
        turns = float(text)
    except ValueError:
        raise ValueError(TURN_FORMS) from None
    if not math.isfinite(turns):
        raise ValueError(TURN_FORMS)
    return TURN.to_si(turns)


def asked(scenario: Scenario, given: Mapping[str, str]) -> Scenario:
    """Return a scenario with some of its setting and clamp changed as typed.

    `given` maps the names below to text; a missing name changes nothing: ``back-off``, ``technique``,
    ``lock-torque`` [N·m], ``drift`` [°], ``cone-held`` (yes or no), ``slack-taken`` (yes or no), ``axle-held``,
    ``clamp-seat``, ``clamp-force`` [N].
    Errors: `InputProblems` with every mistake.
    """
    changed, problems = _laid_over(scenario.setting, scenario.clamp, given)
    if problems:
        raise InputProblems(problems)
    try:
        return scenario.replace(**changed)
    except PartProblems as error:
        raise InputProblems(scenario.say(fault) for fault in error.faults) from None


def option_problems(given: Mapping[str, str]) -> list[Problem]:
    """Return what is wrong with what was typed, for when there is no scenario to lay it over."""
    return _laid_over(Setting(), Clamp(kind="quick release"), given)[1]


def _laid_over(
    setting: Setting, clamp: Clamp, given: Mapping[str, str]
) -> tuple[dict[str, Part], list[Problem]]:
    """Return setting and clamp as typed, and every mistake."""
    problems: list[Problem] = []
    changed: dict[str, Part] = {}
    for name, part, names in (("setting", setting, _SETTING), ("clamp", clamp, _CLAMP)):
        changes = _changes(type(part), given, names, problems)
        if "force" in changes:
            changes |= {"pick_up": None, "torque": None}
        try:
            changed[name] = part.replace(**changes)
        except PartProblems as error:
            problems += [_said(part, fault, given, names) for fault in error.faults]
    return changed, problems


_SETTING = {
    "back-off": "back_off",
    "technique": "technique",
    "lock-torque": "lock_torque",
    "drift": "drift",
    "cone-held": "cone_held",
    "slack-taken": "slack_taken",
    "axle-held": "axle_held",
    "clamp-seat": "clamp_seat",
}
_CLAMP = {"clamp-force": "force"}
_YES_NO = {"yes": True, "no": False}


def _changes(
    part: type[Part], given: Mapping[str, str], names: Mapping[str, str], problems: list[Problem]
) -> dict[str, Any]:
    """Return the fields that were typed, in SI; what cannot be read is added to `problems`."""
    changes: dict[str, Any] = {}
    for asked_for, field in names.items():
        if asked_for not in given:
            continue
        try:
            changes[field] = _read(part, field, given[asked_for])
        except ValueError as error:
            problems.append(Problem(where=f"--{asked_for}", value=given[asked_for][:60], limit=str(error)))
    return changes


def _read(part: type[Part], field: str, text: str) -> Any:
    """Return one field as typed, in SI. Errors: ValueError with what would have been understood."""
    info = part.model_fields[field]
    if field == "back_off":
        return parse_turn(text)
    if info.annotation is bool:
        if text not in _YES_NO:
            raise ValueError("must be yes or no")
        return _YES_NO[text]
    if file_key(field, info) == field:
        return text
    try:
        value = float(text)
    except ValueError:
        raise ValueError("must be a number") from None
    return part.locate(field)[1].to_si(value)


def _said(part: Part, fault: Any, given: Mapping[str, str], names: Mapping[str, str]) -> Problem:
    """Return a fault under the name the person typed."""
    typed = next((name for name, field in names.items() if field == fault.field), fault.field)
    said = part.say(fault)
    return Problem(
        where=f"--{typed}", value=given.get(typed, said.value)[:60], limit=said.limit, remedy=said.remedy
    )
