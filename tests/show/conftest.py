"""Predictions that the pictures are drawn from: four hubs that differ in how they are clamped and set."""

import functools

import pytest

from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.setting.predict import Prediction, predict
from conemodel.tasks.setting.sweep import Sweep, sweep

HUBS = ("touring-rear", "city-nutted", "thru-axle", "proud-axle")


@functools.cache
def predicted(root, name: str, back_off: float | None = None) -> Prediction:
    scenario = load_scenario(root / "scenarios" / f"{name}.toml")
    return predict(scenario if back_off is None else scenario.with_setting(back_off=back_off))


@functools.cache
def swept(root, name: str) -> Sweep:
    return sweep(load_scenario(root / "scenarios" / f"{name}.toml"))


@pytest.fixture(params=HUBS)
def prediction(request, root) -> Prediction:
    """Each of the hubs in turn, as its file sets it."""
    return predicted(root, request.param)


@pytest.fixture
def touring(root) -> Prediction:
    """The touring rear hub, too loose once clamped."""
    return predicted(root, "touring-rear")


@pytest.fixture
def tight(root) -> Prediction:
    """The touring rear hub with its cone left at finger contact: pinched once clamped."""
    return predicted(root, "touring-rear", 0.0)


@pytest.fixture
def proud(root) -> Prediction:
    """The hub whose axle stands proud; its verdict is the longest."""
    return predicted(root, "proud-axle")


@pytest.fixture
def touring_sweep(root) -> Sweep:
    return swept(root, "touring-rear")
