"""A scenario with what a person typed over it: the same words on the command line, in a link and on screen."""

from collections.abc import Mapping
from typing import Any

from conemodel.base.errors import InputProblems, Problem
from conemodel.base.typed_numbers import parse_turn
from conemodel.base.units import MM, NEWTON
from conemodel.parts.mounting import Clamp
from conemodel.parts.scenario import Scenario
from conemodel.parts.schema import FieldError, Part, PartProblems, file_key
from conemodel.parts.setting import Limits, Setting
from conemodel.physics.thread import axial_backlash, clearance_for_backlash

FIELDS: dict[str, tuple[str, str]] = {
    "back-off": ("setting", "back_off"),
    "technique": ("setting", "technique"),
    "lock-torque": ("setting", "lock_torque"),
    "drift": ("setting", "drift"),
    "cone-held": ("setting", "cone_held"),
    "contact-found": ("setting", "contact_found"),
    "axle-held": ("setting", "axle_held"),
    "clamp-seat": ("setting", "clamp_seat"),
    "clamp-force": ("clamp", "force"),
    "thread-slack": ("axle", "thread_clearance"),
    "limit-rim-play": ("limits", "rim_play"),
    "limit-torque": ("limits", "torque"),
    "limit-pressure": ("limits", "cone_pressure"),
    "limit-life": ("limits", "life_ratio"),
}
"""What can be typed, and the part and field of a scenario it changes.

Numbers are in the unit of the scenario file; back-off is a turn; thread slack is the axial backlash in mm."""

_YES_NO = {"yes": True, "no": False}


def apply_overrides(scenario: Scenario, given: Mapping[str, str]) -> Scenario:
    """Return a scenario with some fields changed as typed; `given` maps names of `FIELDS` to text.

    Raises:
        InputProblems: what was given cannot be used, with every mistake.
    """
    parts: dict[str, Part] = {name: getattr(scenario, name) for name, _ in FIELDS.values()}
    changed, problems = _apply(parts, given)
    if problems:
        raise InputProblems(problems)
    try:
        return scenario.replace(**changed)
    except PartProblems as error:
        raise InputProblems(scenario.say(mistake) for mistake in error.mistakes) from None


def list_overridden(scenario: Scenario, given: Mapping[str, str]) -> list[str]:
    """Return, in sentences, what was measured of a hub by its file and is taken otherwise, as `given`."""
    force, clearance = scenario.clamp.force, scenario.axle.thread_clearance
    measured = {
        "clamp-force": None if force is None else f"{NEWTON.from_si(force):.4g} N",
        "thread-slack": None
        if clearance is None
        else f"{MM.from_si(float(axial_backlash(pitch_diameter_clearance=clearance))):.3g} mm",
    }
    return [
        f"--{option} {given[option][:60]} is taken, and not the {value} of the file."
        for option, value in measured.items()
        if value is not None and option in given and not value.startswith(f"{given[option]} ")
    ]


def option_problems(given: Mapping[str, str]) -> list[Problem]:
    """Return what is wrong with what was typed, for when there is no scenario to apply it to."""
    stand_in = {"setting": Setting(), "clamp": Clamp(kind="quick release"), "limits": Limits()}
    return _apply(stand_in, given)[1]


def _apply(parts: Mapping[str, Part], given: Mapping[str, str]) -> tuple[dict[str, Part], list[Problem]]:
    """Return the parts as typed, and every mistake."""
    problems: list[Problem] = []
    changed: dict[str, Part] = {}
    for name, part in parts.items():
        changes = _changes(name, part, given, problems)
        if name == "clamp" and changes:
            changes |= {"pick_up": None, "torque": None}
        if "thread_clearance" in changes:
            changes["thread_clearance_error"] = 0.0
        try:
            changed[name] = part.replace(**changes) if changes else part
        except PartProblems as error:
            problems += [_problem_of(name, part, mistake, given) for mistake in error.mistakes]
    return changed, problems


def _changes(name: str, part: Part, given: Mapping[str, str], problems: list[Problem]) -> dict[str, Any]:
    """Return the fields of one part that were typed, in SI; what cannot be read is added to `problems`."""
    changes: dict[str, Any] = {}
    for option, (owner, field) in FIELDS.items():
        if owner != name or option not in given:
            continue
        try:
            changes[field] = _read(type(part), field, given[option])
        except ValueError as error:
            problems.append(Problem(where=f"--{option}", value=given[option][:60], limit=str(error)))
    return changes


def _read(part: type[Part], field: str, text: str) -> Any:
    """Return one field as typed, in SI.

    Raises:
        ValueError: it cannot be read; says what would have been understood.
    """
    info = part.model_fields[field]
    if field == "back_off":
        return parse_turn(text)
    if info.annotation is bool:
        if text not in _YES_NO:
            raise ValueError("must be yes or no")
        return _YES_NO[text]
    if file_key(field, info) == field and info.annotation is not float:
        return text
    try:
        value = float(text)
    except ValueError:
        raise ValueError("must be a number") from None
    if field == "thread_clearance":
        return float(clearance_for_backlash(axial_backlash=MM.to_si(value)))
    return part.locate(field)[1].to_si(value)


def _problem_of(name: str, part: Part, mistake: FieldError, given: Mapping[str, str]) -> Problem:
    """Return a mistake under the name the person typed."""
    typed = next(
        (option for option, place in FIELDS.items() if place == (name, mistake.field)), mistake.field
    )
    said = part.say(mistake)
    limit = said.limit
    if (
        mistake.field == "thread_clearance" and mistake.bound is not None
    ):  # typed as slack along the axis, in mm
        slack = float(axial_backlash(pitch_diameter_clearance=mistake.bound))
        limit = mistake.limit.format(f"{MM.from_si(slack):.3g} mm")
    return Problem(
        where=f"--{typed}", value=given.get(typed, said.value)[:60], limit=limit, remedy=said.remedy
    )


def cone_position(text: str) -> float:
    """Return a position of the cone as typed, out from finger contact [rad], as far as a setting may have it.

    Raises:
        ValueError: it cannot be read, or no setting may have it; with what would have been understood.
    """
    angle = parse_turn(text)
    try:
        return Setting(back_off=angle).back_off
    except PartProblems as error:
        raise ValueError(Setting.say(error.mistakes[0]).limit) from None
