"""JCGM 100:2008, the guide to the expression of uncertainty in measurement: limits turned into a standard uncertainty.

4.3.7: limits ±a and nothing more known, a/√3. 4.3.9: a triangle between them, a/√6. Quoted from memory, pages not seen;
both are closed forms.
"""

import numpy as np
import pytest

from conemodel.base.units import MM, UM
from conemodel.parts.distributions import UncertainLength, standard_error
from conemodel.parts.unknowns.unknown import Shape, Unknown


def within(shape: Shape, usual: float = 0.0) -> Unknown:
    """Return a length within ±12 µm."""
    return Unknown(
        name="a", words="a", unit=UM, low=-12.0, usual=usual, high=12.0, shape=shape, because="a test"
    )


def test_limits_alone_are_taken_even() -> None:
    assert standard_error(within("even"), UM) == pytest.approx(12 / 3**0.5)
    assert standard_error(within("even"), MM) == pytest.approx(0.012 / 3**0.5)


def test_a_triangle_is_narrower() -> None:
    assert standard_error(within("peaked"), UM) == pytest.approx(12 / 6**0.5)


@pytest.mark.parametrize(("shape", "usual"), [("even", 0.0), ("peaked", 7.0)])
def test_it_is_the_spread_of_what_is_drawn(shape: Shape, usual: float) -> None:
    """A million draws through the inverse of the distribution: its own spread, to a thousandth or so."""
    drawn = UncertainLength.of(within(shape, usual)).at(
        np.linspace(0.5e-6, 1 - 0.5e-6, 1_000_000, dtype=np.float64)
    )
    assert standard_error(within(shape, usual), UM) == pytest.approx(1e6 * drawn.std(), rel=1e-3)
