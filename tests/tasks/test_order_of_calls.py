"""Whatever was worked out before, each answer is the same to the last digit."""

import ast
import re
from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass
from functools import partial
from importlib import import_module
from pathlib import Path
from pkgutil import walk_packages
from typing import Any

import numpy as np
import pytest

import conemodel
from conemodel.base.batch_cache import count_kept, forget_all
from conemodel.base.units import MINUTE
from conemodel.parts import library
from conemodel.parts.exercise import Exercise
from conemodel.parts.scenario import Scenario
from conemodel.parts.schema import Part
from conemodel.parts.toml_files import load_part, load_scenario
from conemodel.tasks.bearing.fatigue_life import life_ratio
from conemodel.tasks.diagnosis.lookup_curves import curve_of, shift_of
from conemodel.tasks.diagnosis.push import bearing_give
from conemodel.tasks.population.lookup_tables import tables_of
from conemodel.tasks.practice.hidden_hub import Given, begin
from conemodel.tasks.practice.widget_data import feel_of
from conemodel.tasks.real_hub.fit import fit_real_hub
from conemodel.tasks.real_hub.readings import Felt, Measured
from conemodel.tasks.setting.good_range import window_of
from conemodel.tasks.setting.predict import predict
from conemodel.tasks.setting.sweep import sweep

HOME = Path(conemodel.__file__).parent
NAMES = ("touring-rear", "road-front", "thru-axle", "worn-thread", "skew-fork")
SCENARIOS = {name: load_scenario(library.SCENARIOS / f"{name}.toml") for name in NAMES}
EXERCISES = sorted((library.SCENARIOS / "practise").glob("*.toml"))[:3]

VALUES = {
    "_mend",
    "_capacities",
    "_cone_ellipse",
    "_hub",
    "_prepare_pair",
    "_prepare_positions",
    "_prior",
    "_static_rating",
    "_table",
    "_upright",
    "arrays_of_row",
    "axle_end_position",
    "kept_calibration",
    "ladder",
    "least_told",
    "pair_of",
    "reached",
    "rim_position",
    "scenario_of",
    "stiffen",
    "touching_end_play",
    "wheel_positions",
}
"""What may be kept in other ways: parts, files, and values of one formula, none of which a balance was solved for."""


def calls() -> Iterator[tuple[str, Callable[[], Any]]]:
    """Yield what people ask of a hub, by name."""
    for name, hub in SCENARIOS.items():
        yield f"predict {name}", partial(predict, hub)
        yield f"predict {name} turned", partial(predict, hub.with_setting(back_off=0.9))
        yield f"sweep {name}", partial(sweep, hub, cone_angle=np.linspace(0.0, 1.5, 5))
        yield f"range {name}", partial(window_of, hub)
        yield f"life {name}", partial(life_ratio, hub)
        yield f"many {name}", partial(many, hub)
        yield f"real {name}", partial(real, hub)
        yield f"check {name}", partial(check, hub)
    for path in EXERCISES:
        yield f"practise {path.stem}", partial(practise, path)


def check(hub: Scenario) -> Any:
    """What a check of a hub is read from, upright and with cones askew, and pushed at the rim."""
    return curve_of(hub, 0.0), curve_of(hub, 1e-3), shift_of(hub), bearing_give(hub)


def many(hub: Scenario) -> Any:
    """The tables of a kind of hub, at a few places."""
    tables = tables_of(hub, grooves=(0.54, 0.57), core_shares=(0.3,))
    at, groove = np.linspace(-8e-5, 0.0, 7), np.full(7, 0.55)
    give = np.full(7, 0.3)
    return tables.preload(at, groove, give), tables.cone_pressure(at, groove, give), tables.edges


def real(hub: Scenario) -> Any:
    """A real hub like one, of which a play and a count are known."""
    at, step = MINUTE.to_si(20), MINUTE.to_si(1)
    measured = Measured(place="axle", state="locked", count=at, play=0.1e-3, error=1e-5, mark=0)
    fitted = fit_real_hub(hub, [measured, Felt(what="play", state="nut loose", count=step, step=step)])
    return fitted.shown.slack, fitted.weight


def practise(path: Path) -> Any:
    """A hidden hub as it comes to the bench, and what can be felt of it."""
    bench = begin(load_part(Exercise, path), Given(salt="order", seed=3))
    return feel_of(bench), bench.hubs


def digits(value: Any) -> Any:
    """Return a result as plain things that are equal where it is the same to the last digit."""
    if isinstance(value, np.ndarray):
        return value.shape, value.tobytes()
    if is_dataclass(value) and not isinstance(value, Part):
        return type(value).__name__, [digits(getattr(value, field.name)) for field in fields(value)]
    if isinstance(value, dict):
        return {key: digits(each) for key, each in value.items()}
    if isinstance(value, tuple | list):
        return [digits(each) for each in value]
    return value.hex() if isinstance(value, float) else value


def stores() -> dict[str, int]:
    """Return how many answers each store of solve and tasks keeps, by the name of what fills it."""
    for room in ("solve", "tasks"):
        for module in walk_packages([str(HOME / room)], f"conemodel.{room}."):
            import_module(module.name)
    kept = {name.removeprefix("conemodel."): count for name, count in count_kept().items()}
    return {name: count for name, count in kept.items() if name.startswith(("solve.", "tasks."))}


@pytest.fixture(scope="module")
def asked_alone() -> tuple[dict[str, Any], set[str]]:
    """Each answer with nothing known before, and the stores that one or another of them filled."""
    found, filled = {}, set()
    for name, call in calls():
        forget_all()
        found[name] = digits(call())
        filled |= {store for store, count in stores().items() if count}
    return found, filled


@pytest.fixture(scope="module")
def alone(asked_alone: tuple[dict[str, Any], set[str]]) -> dict[str, Any]:
    """Each answer with nothing known before."""
    return asked_alone[0]


@pytest.mark.parametrize("seed", range(4))
def test_answers_do_not_depend_on_what_was_asked_before(alone: dict[str, Any], seed: int) -> None:
    """A random third of all questions, in a random order, from empty stores."""
    dice = np.random.default_rng(seed)
    asked = list(calls())
    forget_all()
    for place in dice.permutation(len(asked))[: len(asked) // 3]:
        name, call = asked[place]
        assert digits(call()) == alone[name], name


def test_the_questions_fill_every_store(asked_alone: tuple[dict[str, Any], set[str]]) -> None:
    """So that no store is left out of the random orders."""
    assert set(stores()) - asked_alone[1] == set()


def test_every_store_has_its_reason_in_the_papers() -> None:
    """One row of a table for each; a store that goes takes its row along."""
    papers = (HOME.parent / "DEVELOPERS.md").read_text(encoding="utf-8")
    assert set(re.findall(r"^\| `((?:solve|tasks)\.[\w.]+)` \|", papers, re.MULTILINE)) == set(stores())


def test_nothing_solved_is_kept_where_it_cannot_be_forgotten() -> None:
    """`lru_cache` holds values only; the pages keep whole answers in Streamlit's own store."""
    kept = {
        node.name
        for room in ("solve", "tasks")
        for path in (HOME / room).rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.FunctionDef)
        and any(
            "cache" in ast.unparse(mark) and "property" not in ast.unparse(mark)
            for mark in node.decorator_list
        )
    }
    assert kept - VALUES == set()
    assert VALUES - kept == set()
