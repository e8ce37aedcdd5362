"""Charts of the races over the position of the cone: peak pressure, fatigue life, spin time."""

import numpy as np

from conemodel.base.units import DEG, MPA, Array
from conemodel.physics.rating import STATIC_PRESSURE
from conemodel.show.charts.cone_axis import cone_axis, key_words, line, over_cone, position_words
from conemodel.show.charts.vega_lite import Channel, Spec, dot, on_scale, rule, tone, values, written
from conemodel.show.formatting import play_words
from conemodel.tasks.bearing.ball_loads import Band, Worst
from conemodel.tasks.bearing.fatigue_life import LifeRatio
from conemodel.tasks.bearing.load_cases import CASES, Case
from conemodel.tasks.bearing.race_sweep import RacesSweep
from conemodel.tasks.setting.predict import Prediction

SECONDS_ROOM = 1.12
"""How far the scale of time reaches above the longest."""


def peak_of(worst: Worst) -> Band:
    """Return the greater of the pressures on cone and cup, with its band [Pa]."""
    cone, cup = worst.cone_pressure, worst.cup_pressure
    return Band(
        value=np.maximum(cone.value, cup.value),
        low=np.maximum(cone.low, cup.low),
        high=np.maximum(cone.high, cup.high),
    )


def pressure_over_cone(races: RacesSweep, worst: Worst, case: Case, prediction: Prediction) -> Spec:
    """Return the peak pressure under a load over the position of the cone, clamped, as Vega-Lite.

    The shaded band is the range from the unknown groove radius; from the rule at 4200 MPa on, a dent that can be
    felt remains.
    """
    across = cone_axis(prediction, races.cone_angle, races.end_play)
    peak = peak_of(worst)
    top = 1.05 * max(MPA.from_si(float(peak.high.max())), 1.1 * MPA.from_si(STATIC_PRESSURE))

    y = on_scale(0, top, "peak pressure, MPa", tickCount=6, grid=True, format="d")
    band = {
        "mark": {"type": "area", "color": tone("petrol"), "opacity": 0.25},
        "encoding": {"x": across.x("out_deg"), "y": y("low"), "y2": {"field": "high"}},
    }
    return over_cone(
        "Peak pressure on a race",
        across,
        [band, line(across, "mpa", y("mpa"), colour="petrol", width=3), *_dent_rule(y)],
        columns={
            **_positions(races),
            "mpa": _plain_numbers(peak.value, MPA.per_si),
            "low": _plain_numbers(peak.low, MPA.per_si),
            "high": _plain_numbers(peak.high, MPA.per_si),
            "pressure": [f"{MPA.from_si(p):.0f} MPa" for p in peak.value.tolist()],
            "span": [
                f"{MPA.from_si(low):.0f} to {MPA.from_si(high):.0f} MPa"
                for low, high in zip(peak.low.tolist(), peak.high.tolist(), strict=True)
            ],
        },
        read_out=(("end_play", "end play, clamped"), ("pressure", "peak pressure"), ("span", "by groove")),
    )


def alt_text_pressure(races: RacesSweep, worst: Worst, case: Case, prediction: Prediction) -> str:
    """Return the chart of peak pressure in words."""
    peak = peak_of(worst)
    here, least = _at_now(races, prediction, peak.value), int(np.argmin(peak.value))
    return (
        f"Peak pressure on the races under the {CASES[case]} against the position of the cone, clamped. "
        f"{_now_words(prediction)}: {MPA.from_si(here):.0f} MPa. "
        f"Least, {MPA.from_si(float(peak.value[least])):.0f} MPa, "
        f"with the cone {position_words(float(races.cone_angle[least]))}; it rises to "
        f"{MPA.from_si(float(peak.value[0])):.0f} MPa at the tight end. At 4200 MPa a dent stays that can be felt."
    )


def life_over_cone(races: RacesSweep, prediction: Prediction) -> Spec:
    """Return fatigue life as a share of the best this hub can have, over the position of the cone, as Vega-Lite."""
    across, life = cone_axis(prediction, races.cone_angle, races.end_play), races.life

    y = on_scale(0, 1.1, "life, share of the best", tickCount=5, format=".0%", grid=True)
    best = best_angle(races)
    peak = {"data": values({"deg": DEG.from_si(best), "share": 1.0})}
    at_best = {"x": across.x("deg"), "y": y("share")}
    layers = [
        line(across, "side", y("side"), colour="level", width=2, dash=(1, 4)),
        line(across, "straight", y("straight"), colour="level", width=2, dash=(6, 4)),
        line(across, "mixed", y("mixed"), colour="petrol", width=3),
        {**peak, **dot(at_best["x"], at_best["y"])},
        *written(at_best, peak, text="◂ best", align="left", dx=9, dy=-4, fontWeight="bold"),
        *key_words(("—— the mix", "– – straight", "· · · side load")),
    ]
    shares: dict[str, Array] = {"mixed": life.mixed}
    shares |= {str(case): share for case, share in life.alone.items()}
    return over_cone(
        "Fatigue life against the setting",
        across,
        layers,
        columns={
            **_positions(races),
            **{name: _plain_numbers(share, 1.0) for name, share in shares.items()},
            **{
                f"{name}_words": [f"{value:.0%}" for value in share.tolist()]
                for name, share in shares.items()
            },
        },
        read_out=(
            ("end_play", "end play, clamped"),
            ("mixed_words", "the mix"),
            ("straight_words", "straight ahead"),
            ("side_words", "with side load"),
        ),
    )


def mix_words(life: LifeRatio) -> str:
    """Return the mix of loads that a life is counted over, in words."""
    more: dict[Case, str] = {"pedalling": "the chain pulling", "braking": "the brake on"}
    parts = [f"the side load of {life.side_load:.0f} N on {life.shares['side']:.0%} of the turns"]
    parts += [f"{words} on {life.shares[case]:.0%}" for case, words in more.items() if case in life.shares]
    return f"with {', '.join(parts)} ({'assumption' if len(parts) == 1 else 'assumptions'})"


def best_angle(races: RacesSweep) -> float:
    """Return the cone position of the longest life under the mix [rad]."""
    order = np.argsort(races.end_play)
    return float(np.interp(races.life.best, races.end_play[order], races.cone_angle[order]))


def alt_text_life(races: RacesSweep, prediction: Prediction) -> str:
    """Return the chart of life in words."""
    life: LifeRatio = races.life
    return (
        f"Fatigue life as a share of the best this hub can have, {mix_words(life)}, against the position of the cone, "
        "clamped. "
        f"Best with the cone {position_words(best_angle(races))}, at {play_words(life.best, unit=' mm')}; "
        f"{_now_words(prediction)}: {_at_now(races, prediction, life.mixed):.0%}. It falls steeply to "
        "the tight side and gently to the loose side."
    )


def spin_over_cone(races: RacesSweep, prediction: Prediction) -> Spec:
    """Return how long a wheel spun hard by hand turns, over the position of the cone, as Vega-Lite."""
    across = cone_axis(prediction, races.cone_angle, races.end_play)
    longest = float(races.spin_time.max())

    y = on_scale(0, SECONDS_ROOM * longest, "spins for, s", tickCount=5, grid=True)
    at = {"data": values({"s": longest})}
    level = {"x": {"value": "width"}, "y": y("s")}
    layers = [
        line(across, "s", y("s"), colour="petrol", width=3),
        *written(level, at, text="looser: no longer", align="right", dx=-4, dy=-10),
    ]
    return over_cone(
        "Spin time against the setting",
        across,
        layers,
        columns={
            **_positions(races),
            "s": _plain_numbers(races.spin_time, 1.0),
            "time": [f"{time:.0f} s" for time in races.spin_time.tolist()],
        },
        read_out=(("end_play", "end play, clamped"), ("time", "spins for")),
    )


def alt_text_spin_over_cone(races: RacesSweep, prediction: Prediction) -> str:
    """Return the chart of spin time in words."""
    times = races.spin_time
    return (
        "How long the wheel spins against the position of the cone, clamped: "
        f"{times[0]:.0f} s at the tight end, {_at_now(races, prediction, times):.0f} s as set now, "
        f"{times.max():.0f} s at most, on the loose side, where it stays however much play there is."
    )


def _dent_rule(y: Channel) -> list[Spec]:
    """Return the line of 4200 MPa with its words."""
    at = MPA.from_si(STATIC_PRESSURE)
    words = written(
        {"x": {"value": "width"}, "y": y("mpa")},
        {"data": values({"mpa": at})},
        text="4200 MPa: dents that are felt",
        align="right",
        dx=-4,
        dy=-10,
        fontWeight="bold",
    )
    return [rule("y", y, at, colour="forbidden", strokeWidth=2, strokeDash=[8, 3]), *words]


def _positions(races: RacesSweep) -> dict[str, list[object]]:
    return {
        "out_deg": _plain_numbers(races.cone_angle, DEG.per_si),
        "end_play": [play_words(end, unit=" mm") for end in races.end_play.tolist()],
    }


def _plain_numbers(value: Array, per_si: float) -> list[object]:
    """Return an array as plain numbers in a unit; what is not finite is left out of the drawing."""
    return [each if np.isfinite(each) else None for each in (value * per_si).tolist()]


def _at_now(races: RacesSweep, prediction: Prediction, value: Array) -> float:
    return float(np.interp(prediction.scenario.setting.back_off, races.cone_angle, value))


def _now_words(prediction: Prediction) -> str:
    return f"As set now, {position_words(prediction.scenario.setting.back_off)}"
