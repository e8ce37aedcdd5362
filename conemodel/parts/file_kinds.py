"""The kinds of file there are, known by the keys at their top, and where each is taken."""

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class FileKind:
    """One kind of file: the class it describes, its `marks` (keys that no other kind has), and who takes it."""

    part: str
    words: str
    marks: frozenset[str]
    taken_by: str


FILE_KINDS = (
    FileKind(
        part="Scenario",
        words="a scenario",
        marks=frozenset(
            {"hub", "axle", "stack", "frame", "wheel", "condition", "setting", "limits", "assumed"}
            | {
                "family",
                "over_locknut_width_mm",
                "ball_count_left",
                "ball_diameter_left_mm",
                "protrusion_left_mm",
            }
        ),
        taken_by="the commands predict, sweep, races and feel, and the page Set the cone",
    ),
    FileKind(
        part="Readings",
        words="a file of readings",
        marks=frozenset(
            {
                "thread",
                "cone_out_deg",
                "cone_out_uncertainty_deg",
                "protrusion_left",
                "protrusion_right",
                "over_locknut_width",
                "axle_length",
                "dropout_width",
                "dropout_thickness",
                "pitch_diameter",
                "balls_left",
                "balls_right",
                "checks",
                "found",
            }
        ),
        taken_by="the command check, and the page Check a hub",
    ),
    FileKind(
        part="RealHubReadings",
        words="a file of what was found on a real hub",
        marks=frozenset({"hand", "step_minutes", "nut_loose", "locked", "clamped"}),
        taken_by="the command real-hub",
    ),
    FileKind(
        part="MeasuredHub",
        words="a file of what was measured on a real hub at marks",
        marks=frozenset(
            {"read_by", "light_push_n", "hard_push_n", "first", "second", "third", "fourth", "fifth", "sixth"}
        ),
        taken_by="the command measure, and the page Measure a hub",
    ),
    FileKind(
        part="Population",
        words="a population",
        marks=frozenset({"hands", "threads", "face_friction", "groove", "clamp_force", "tools"}),
        taken_by="the command many-hubs, and the page Many hubs",
    ),
    FileKind(
        part="Story",
        words="a story",
        marks=frozenset({"title", "opening", "own_hub", "left", "right", "steps"}),
        taken_by="the page Demonstrate",
    ),
    FileKind(
        part="Exercise",
        words="an exercise",
        marks=frozenset({"goal", "scenario", "kind", "start", "needed", "questions", "prior", "last"}),
        taken_by="the page Practise",
    ),
)
"""Told apart by their marks; ``hubs`` stands in populations and exercises, so it marks neither."""


def kind_of(keys: Iterable[str]) -> FileKind | None:
    """Return the kind of file that most of its keys are marks of, or None where no kind leads.

    >>> kind_of(["name", "found", "checks"]).words
    'a file of readings'
    >>> kind_of(["name", "story"]) is None
    True
    """
    given = frozenset(keys)
    found = sorted(FILE_KINDS, key=lambda kind: len(kind.marks & given), reverse=True)
    first, second = (len(kind.marks & given) for kind in found[:2])
    return found[0] if first > second else None
