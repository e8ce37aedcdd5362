"""What the fingers find in hubs with one fault each, and that faults are not mixed up."""

import numpy as np
import pytest

import conemodel as cm
from conemodel.base.errors import InputProblems
from conemodel.parts.bearing import Dents
from conemodel.solve.curves.hub_tables import road_load
from conemodel.tasks.bearing.feel_when_turned import ball_spacing, signature
from conemodel.tasks.bearing.feel_words import FELT_TORQUE


@pytest.fixture(scope="module")
def sound(root):
    # Brought in to the middle of its good range or a little tighter.
    return cm.load_scenario(root / "scenarios" / "touring-rear.toml").with_setting(back_off=2 * np.pi * 0.16)


def with_left(scenario, **condition):
    fault = scenario.condition.left.replace(**condition)
    return scenario.replace(condition=scenario.condition.replace(left=fault))


@pytest.mark.parametrize(
    ("name", "word"),
    [
        ("dented-cone", "notchy"),
        ("pitted-cup", "gritty"),
        ("big-ball", "uneven play"),
        ("dry-grease", "thick"),
        ("dragging-seal", "thick"),
        ("mixed-rows", "smooth"),
        ("one-ball-short", "smooth"),
        ("small-ball", "smooth"),
    ],
)
def test_each_fault_feels_as_the_trade_says(root, name, word):
    # Words from common practice, no source.
    found = signature(cm.load_scenario(root / "scenarios" / f"{name}.toml"))
    assert word in found.words
    assert len(found.reasons) == len(found.words)


def test_a_tight_sound_hub_is_stiff_and_still_not_notchy(sound):
    found = signature(sound.with_setting(back_off=2 * np.pi * 0.09))
    assert "stiff" in found.words
    assert "smooth" in found.words
    assert found.ripple < FELT_TORQUE / 1e3


def test_dents_are_notchier_the_tighter(sound):
    dented = with_left(sound, cone_dents=Dents(count=9, depth=2e-6))
    ripples = [
        signature(dented.with_setting(back_off=2 * np.pi * turns)).ripple for turns in (0.16, 0.14, 0.12)
    ]
    assert np.all(np.diff(ripples) > 0)


def test_nine_dents_click_once_a_ball_spacing_and_scattered_pits_more_often(sound):
    # Nine dents under nine balls fall in together; three with thirds of a spacing between them take turns.
    spacing = 2 * np.pi / 9
    clicks = signature(with_left(sound, cone_dents=Dents(count=9)))
    pits = signature(
        with_left(
            sound, cone_dents=Dents(positions=(0.0, 2 * spacing + spacing / 3, 5 * spacing + spacing * 2 / 3))
        )
    )
    assert clicks.detents == pytest.approx(1, abs=0.1)
    assert pits.detents == pytest.approx(3, abs=0.2)
    # By hand: balls move on by (1 + γ)/2 of the wheel's turn, γ = 6.35 cos 40°/20 = 0.2432.
    assert np.degrees(clicks.spacing) == pytest.approx(40 * 2 / 1.2432, rel=1e-4)


def test_a_tight_spot_comes_round_with_the_wheel_and_only_with_cone_and_cup_askew(sound):
    bent = with_left(sound, cone_tilt=(6e-3, 0.0))
    alone, both = signature(bent), signature(with_left(bent, cup_tilt=(3e-3, 0.0)))
    assert alone.words == ("smooth",)
    assert alone.once_per_turn < 1e-3 * alone.level
    assert "tight in one place" in both.words
    assert both.once_per_turn > 20 * both.with_the_balls
    assert both.ripple < 0.05 * both.once_per_turn


def test_one_big_ball_is_felt_under_load_and_comes_round_with_the_balls(sound):
    # The shell moves over for it: without load turning the balls turns the whole balance of forces with them.
    odd = with_left(sound, ball_oversize=(20e-6, *[0.0] * 8))
    assert signature(odd).variation < 1e-6
    loaded = signature(odd, load=road_load(odd.wheel, side=False))
    assert loaded.with_the_balls > 2 * loaded.once_per_turn
    assert loaded.with_the_balls > 20 * signature(sound, load=road_load(odd.wheel, side=False)).with_the_balls


def test_grease_and_seals_raise_the_level_and_nothing_else(sound):
    greased = sound.replace(condition=sound.condition.replace(grease="dry", seal_torque=20e-3))
    before, after = signature(sound), signature(greased)
    assert after.variation == pytest.approx(before.variation, abs=1e-12)
    assert after.level - before.level == pytest.approx(
        float(after.drag.grease - before.drag.grease) + 15e-3, rel=1e-9
    )


def test_room_in_the_rows(root):
    # By hand: π/asin(6.35/20) = 9.7235 balls fit.
    short = signature(cm.load_scenario(root / "scenarios" / "one-ball-short.toml"))
    assert short.ball_room == pytest.approx((1.7235, 1.7235), abs=1e-4)


def test_one_ball_too_many_cannot_be_described(sound):
    with pytest.raises(InputProblems, match="at most 9 such balls fit"):
        sound.hub.left.replace(ball_count=10)


def test_dents_given_twice_or_more_than_balls_are_refused_by_name(sound):
    with pytest.raises(InputProblems, match="cannot stand beside positions"):
        Dents(count=2, positions=(0.1,))
    with pytest.raises(InputProblems, match=r"condition\.left\.cone_dents\.count.*at most the 9 balls"):
        with_left(sound, cone_dents=Dents(count=10))


def test_both_rows_move_on_alike(sound):
    assert ball_spacing(sound.row("left")) == ball_spacing(sound.row("right"))
