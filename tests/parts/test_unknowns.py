"""What nobody measures stands once: everything that assumes it takes range, usual value and reason from there."""

import ast
import tomllib
from pathlib import Path
from typing import Any

import pytest

from conemodel.base.errors import InputProblems
from conemodel.parts import exercise, unknowns
from conemodel.parts.exercise import Prior
from conemodel.parts.hand_beliefs import HandBeliefs
from conemodel.parts.library import SCENARIOS
from conemodel.parts.population import Population
from conemodel.parts.priors import BELIEVED, Beliefs
from conemodel.parts.scenario import Scenario
from conemodel.parts.schema import file_key, unit_of
from conemodel.parts.setting import ASSUMED, Assumed, Limits, Setting
from conemodel.parts.toml_files import load_scenario, read_part, read_scenario, write_part
from conemodel.parts.unknowns.unknown import Unknown

PARTS = Path(exercise.__file__).parent
HUB = load_scenario(SCENARIOS / "touring-rear.toml")
NUTTED = load_scenario(SCENARIOS / "city-nutted.toml")

BARE_POPULATION = """
name = "Invented"
story = "Invented."
[hubs]
files = ["touring-rear"]
shares = [1]
because = "one hub"
"""

TAKEN = {
    "setting.py": ("Assumed", {"spanner_length", "clamp_force_low", "clamp_force_high"}),
    "population.py": ("Hands", {"back_off", "technique", "contact_found"}),
    "priors.py": (
        "Beliefs",
        {*Beliefs.model_fields} - {*BELIEVED},
    ),
    "hand_beliefs.py": ("HandBeliefs", {*HandBeliefs.model_fields} - {*BELIEVED}),
    "exercise.py": (
        "Prior",
        {"thread_clearance", "cone_out", "states", "beyond", "push", "wheel_stiffness", "faults", "because"},
    ),
}
"""For each file the class that assumes, and the fields of it that no unknown stands behind."""


@pytest.mark.parametrize("unknown", unknowns.UNKNOWNS, ids=lambda unknown: unknown.name)
def test_an_unknown_has_its_range_in_order_a_unit_and_a_reason(unknown: Unknown) -> None:
    assert unknown.low <= unknown.usual <= unknown.high
    assert unknown.low < unknown.high
    assert unknown.words.strip()
    assert unknown.because.strip()
    assert (
        unknown.unit.symbol or -1 <= unknown.low <= unknown.high <= 1
    )  # without a unit only a share or a ratio


def test_no_name_stands_for_two_unknowns() -> None:
    names = [unknown.name for unknown in unknowns.UNKNOWNS]
    assert sorted(names) == sorted(set(names))


@pytest.mark.parametrize("file", TAKEN)
def test_what_is_assumed_has_no_number_of_its_own(file: str) -> None:
    """The declarations hold no literal default where an unknown stands behind the field."""
    name, own = TAKEN[file]
    tree = ast.parse((PARTS / file).read_text(encoding="utf-8"))
    (part,) = (node for node in tree.body if isinstance(node, ast.ClassDef) and node.name == name)
    looked = set()
    for field in part.body:
        if not isinstance(field, ast.AnnAssign) or not isinstance(field.target, ast.Name):
            continue
        if field.target.id in own or not isinstance(field.value, ast.Call):
            continue
        looked.add(field.target.id)
        defaults = [word.value for word in field.value.keywords if word.arg == "default"] or field.value.args
        literals = [
            node.value
            for default in defaults
            for node in ast.walk(default)
            if isinstance(node, ast.Constant) and isinstance(node.value, int | float)
        ]
        assert literals == [], f"{file}: {name}.{field.target.id}"
    assert looked, f"nothing of {name} was looked at"


def test_what_is_assumed_of_one_hub_is_the_range_of_its_unknown() -> None:
    assumed = Assumed()
    pairs = {name.removesuffix("_low") for name in Assumed.model_fields if name.endswith("_low")}
    assert pairs == {"clamp_force", *ASSUMED}
    for name, unknown in ASSUMED.items():
        ends = getattr(assumed, f"{name}_low"), getattr(assumed, f"{name}_high")
        assert ends == tuple(map(unknown.unit.to_si, unknown.span)), name
    assert Setting().drift == unknowns.hands.DRIFT.unit.to_si(unknowns.hands.DRIFT.usual)
    assert Limits().rim_play == unknowns.senses.FELT_AT_RIM.unit.to_si(unknowns.senses.FELT_AT_RIM.usual)


def test_the_clamp_force_assumed_is_that_of_its_kind() -> None:
    assert Assumed().clamp_forces(HUB.clamp.traits.force, given=None) == unknowns.joint.CLAMP_FORCE.span
    assert Assumed().clamp_forces(NUTTED.clamp.traits.force, given=None) == unknowns.joint.NUT_FORCE.span
    assert Assumed(clamp_force_low=1000.0).clamp_forces(unknowns.joint.NUT_FORCE, given=None) == (
        1000.0,
        unknowns.joint.NUT_FORCE.high,
    )


def test_a_hub_tells_its_ranges_and_that_one_was_given_for_it() -> None:
    """A range given in a file is no longer the registry's, so neither is its reason; all others keep both."""
    own = NUTTED.replace(assumed=Assumed(drift_low=unknowns.hands.DRIFT.unit.to_si(1.0)))
    assert NUTTED.unknowns["clamp_force"] == unknowns.joint.NUT_FORCE
    assert HUB.unknowns == {"clamp_force": unknowns.joint.CLAMP_FORCE, **ASSUMED}
    assert own.unknowns["drift"].low == pytest.approx(1.0)
    assert own.unknowns["drift"].high == unknowns.hands.DRIFT.high
    assert own.unknowns["drift"].because == "as given for this hub"
    assert {**own.unknowns, "drift": unknowns.hands.DRIFT} == NUTTED.unknowns


@pytest.mark.parametrize("hub", [HUB, NUTTED])
def test_a_hub_written_for_elsewhere_holds_both_ends_of_the_clamp_force(hub: Scenario) -> None:
    assumed = tomllib.loads(write_part(hub.with_ranges()))["assumed"]
    assert (assumed["clamp_force_low_n"], assumed["clamp_force_high_n"]) == hub.clamp.traits.force.span
    assert read_scenario(write_part(hub.with_ranges()), name="again").unknowns == hub.unknowns


@pytest.mark.parametrize(("field", "force"), [("clamp_force_low", 25e3), ("clamp_force_high", 1e3)])
def test_one_end_given_must_fit_what_is_usual_for_the_clamp(field: str, force: float) -> None:
    with pytest.raises(InputProblems, match=f"assumed.{field}.*usual for this clamp .nuts.*give both ends"):
        NUTTED.replace(assumed=Assumed(**{field: force}))


def test_a_population_that_says_nothing_is_as_usual() -> None:
    spreads = dict(read_part(Population, BARE_POPULATION, name="bare").assumptions)
    assert len(spreads) == 16
    by_reason = {unknown.because: unknown for unknown in unknowns.UNKNOWNS}
    for place, spread in spreads.items():
        unknown = by_reason[spread.because]
        assert spread.ends == tuple(map(unknown.unit.to_si, unknown.span)), place
        assert spread.shape == unknown.shape, place


def test_a_spread_that_is_given_is_given_whole() -> None:
    """The usual top of a peak must not stay behind in a range that somebody drew evenly."""
    given = BARE_POPULATION + '[hands.drift]\nlow_deg = 6\nhigh_deg = 7\nbecause = "measured"\n'
    drift = read_part(Population, given, name="own").hands.drift
    assert (drift.shape, drift.likely) == ("even", None)
    with pytest.raises(InputProblems, match="high_deg: is missing"):
        read_part(Population, BARE_POPULATION + "[hands.drift]\nlow_deg = 6\n", name="own")


def test_a_range_of_its_own_keeps_word_and_unit_and_gives_its_reason() -> None:
    taken = [value for name, value in vars(exercise).items() if name.startswith("TAUGHT_")]
    assert len(taken) == 5
    known = {unknown.name: unknown for unknown in unknowns.UNKNOWNS}
    for own in taken:
        entry = known[own.name]
        assert (own.words, own.unit) == (entry.words, entry.unit)
        assert own.span != entry.span
        assert own.because != entry.because


def _tables(path: Path) -> dict[str, Any]:
    return tomllib.loads(path.read_text(encoding="utf-8"))


@pytest.mark.parametrize("path", sorted((SCENARIOS / "practise").glob("*.toml")), ids=lambda path: path.stem)
def test_an_exercise_that_departs_says_why_and_none_repeats_what_is_usual(path: Path) -> None:
    shared = {
        "clamp_force",
        "finger_torque",
        "drift",
        "hand_error",
        "cone_tilt",
        "dent_depth",
        "thread_clearance",
        "nut_drag",
        "oversize",
        "proud_by",
    }
    keys = {file_key(name, Prior.model_fields[name]): name for name in shared}
    for table in (part for name, part in _tables(path).items() if name in ("prior", "last")):
        own = {key: value for key, value in table.items() if key in keys}
        for key, value in own.items():
            usual, unit = Prior.model_fields[keys[key]].default, unit_of(Prior.model_fields[keys[key]])
            given = tuple(map(unit.to_si, value)) if isinstance(value, list) else unit.to_si(value)
            assert given != usual, f"{key} repeats what is usual"
        assert not own or table.get("because", "").strip(), f"{path.name} does not say why"


@pytest.mark.parametrize(
    "path", sorted((SCENARIOS / "populations").glob("*.toml")), ids=lambda path: path.stem
)
def test_no_shipped_population_repeats_what_is_usual(path: Path) -> None:
    usual = dict(read_part(Population, BARE_POPULATION, name="bare").assumptions)
    given = [place for place in usual if _given(_tables(path), place)]
    own = dict(read_part(Population, path.read_text(encoding="utf-8"), name=path.name).assumptions)
    assert [place for place in given if own[place] == usual[place]] == []
    assert all(own[place].because.strip() for place in given)


def _given(table: dict[str, Any], place: str) -> bool:
    for name in place.split("."):
        if name not in table:
            return False
        table = table[name]
    return True


def test_a_bell_is_usual_in_its_middle() -> None:
    """A bell has its top in the middle, so what is usual must be near it: within a quarter of the range."""
    for unknown in unknowns.UNKNOWNS:
        if unknown.shape == "bell":
            middle = (unknown.low + unknown.high) / 2
            assert abs(unknown.usual - middle) <= (unknown.high - unknown.low) / 4, unknown.name


def test_no_shipped_hub_repeats_a_range_that_is_assumed_anyway() -> None:
    for path in SCENARIOS.glob("*.toml"):
        assert "assumed" not in _tables(path), f"{path.name} departs: give the reason and mend this test"
