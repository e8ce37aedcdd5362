"""Random hubs a mechanic might enter: any values the form offers, whether or not they make one hub."""

from hypothesis import strategies as st

from conemodel.base.units import MM
from conemodel.parts.axle import YOUNG
from conemodel.parts.hub_families import FAMILIES, THREADS

BALLS_MM = (3.969, 4.7625, 5.556, 6.35, 7.938)
"""5/32, 3/16, 7/32, 1/4 and 5/16 inch. Common practice, no source."""


def lengths(low: int, high: int) -> st.SearchStrategy[float | None]:
    """Draw a length in half millimetres, given in mm and returned in m, or none."""
    return st.none() | st.integers(2 * low, 2 * high).map(lambda halves: MM.to_si(halves / 2))


ENTERED = st.fixed_dictionaries(
    {"family": st.sampled_from(sorted(FAMILIES))},
    optional={
        "thread": st.sampled_from(sorted(THREADS)),
        "ball_count_left": st.integers(5, 20),
        "ball_count_right": st.integers(5, 20),
        "ball_diameter_left": st.sampled_from([MM.to_si(size) for size in BALLS_MM]),
        "ball_diameter_right": st.sampled_from([MM.to_si(size) for size in BALLS_MM]),
        "over_locknut_width": lengths(90, 160),
        "protrusion_left": lengths(0, 40),
        "protrusion_right": lengths(0, 40),
        "dropout_width": lengths(90, 160),
        "dropout_thickness": lengths(2, 15),
        "keyed_washer": st.booleans(),
        "material": st.sampled_from(sorted(YOUNG)),
        "thread_slack": lengths(0, 0) | st.floats(0.02e-3, 0.3e-3),
        "thread_slack_error": st.floats(0.0, 0.02e-3),
        "clamp_force": st.floats(1e3, 20e3),
        "clamp_force_error": st.floats(0.0, 1e3),
    },
)
