"""Populations: read strictly, every assumption named, spreads that are what they say."""

import numpy as np
import pytest
from scipy import stats

from conemodel.base.errors import InputProblems
from conemodel.parts.crowd import load_crowd
from conemodel.parts.distributions import UncertainForce
from conemodel.parts.population import Population
from conemodel.parts.toml_files import read_part, write_part

SHARES = np.linspace(0.0, 1.0, 41)


def force(shape, low, high, likely=None):
    return UncertainForce(shape=shape, low=low, high=high, likely=likely, because="a test")


@pytest.mark.parametrize(
    ("spread", "law"),
    [
        (force("even", 3000.0, 8000.0), stats.uniform(3000, 5000)),
        (force("peaked", 3000.0, 8000.0, 5000.0), stats.triang(0.4, 3000, 5000)),
        (force("peaked", 3000.0, 8000.0, 3000.0), stats.triang(0.0, 3000, 5000)),
        (force("peaked", 3000.0, 8000.0, 8000.0), stats.triang(1.0, 3000, 5000)),
        (force("bell", 3000.0, 8000.0), stats.truncnorm(-2, 2, 5500, 1250)),
    ],
    ids=["even", "peaked", "top at the low end", "top at the high end", "bell"],
)
def test_a_spread_is_the_law_it_is_called_after(spread, law):
    # Against scipy's own distributions, to rounding.
    np.testing.assert_allclose(spread.at(SHARES), law.ppf(SHARES), rtol=1e-9)


@pytest.mark.parametrize("shape", ["even", "peaked", "bell"])
def test_a_spread_of_no_width_is_a_number(shape):
    assert set(force(shape, 5000.0, 5000.0).at(SHARES)) == {5000.0}


def test_every_assumption_of_the_population_says_why(root):
    for path in sorted((root / "scenarios" / "populations").glob("*.toml")):
        crowd = load_crowd(path)
        assumptions = dict(crowd.population.assumptions)
        assert len(assumptions) == 16
        assert {"hands.drift", "clamp_force.nuts", "tools.feeler", "groove"} <= assumptions.keys()
        assert all(len(spread.because) > 10 for spread in assumptions.values())
        assert len(crowd.population.story.split()) >= 20


def test_a_population_written_and_read_again_is_the_same(root):
    population = load_crowd(root / "scenarios/populations/workshop-mix.toml").population
    assert read_part(Population, write_part(population), name="again") == population


def mistaken(root, tmp_path, *changes):
    text = write_part(load_crowd(root / "scenarios/populations/workshop-mix.toml").population)
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    path = tmp_path / "mix.toml"
    path.write_text(text)
    with pytest.raises(InputProblems) as caught:
        load_crowd(path)
    return [str(problem) for problem in caught.value.problems]


def test_every_mistake_of_a_file_is_said_with_its_place(root, tmp_path):
    said = mistaken(
        root,
        tmp_path,
        ("0.1, 0.1]", "0.1, 0.2]"),
        ('because = "a guess: a cone spun', 'becuase = "a guess: a cone spun'),
        ("low_n = 3000", "low_n = 9000"),
        ("low_um = -15", "low_mm = -15"),
    )
    assert len(said) == 5
    assert "hubs.shares" in said[0]
    assert "together 1.1" in said[0]
    assert "did you mean because?" in said[1]
    assert "clamp_force.quick_release.low_n = 9000: must not be above high, 8000 N" in said[2]
    assert "likely_n = 5000: must not be below low, 9000 N" in said[3]
    assert "tools.feeler.low_mm" in said[4]


def test_a_hub_that_is_not_there_is_named_with_those_that_are(root, tmp_path):
    (tmp_path / "touring-rear.toml").write_text((root / "scenarios/touring-rear.toml").read_text())
    said = mistaken(root, tmp_path, ('"touring-rear", "road-front"', '"touring-rear", "../etc/passwd"'))
    assert len(said) == 4
    assert said[0].startswith("mix.toml: hubs.files = ../etc/passwd: is not the name of a scenario here")
    assert "known here: touring-rear" in said[0]
    assert "mix" not in said[0].split("known here")[1]


def test_a_hub_with_a_fault_is_refused(root, tmp_path):
    for name in ("bent-axle", "road-front", "city-nutted", "light-axle", "worn-thread"):
        (tmp_path / f"{name}.toml").write_text((root / "scenarios" / f"{name}.toml").read_text())
    said = mistaken(root, tmp_path, ('"touring-rear"', '"bent-axle"'))
    assert all("must be a sound hub" in problem for problem in said)
