"""A file needs only what is known of a hub; the rest of a scenario may stand beside it."""

import pytest

from conemodel.base.errors import InputProblems
from conemodel.parts.known_hub import KnownHub
from conemodel.parts.known_scenario import KnownScenario
from conemodel.parts.library import find_scenario
from conemodel.parts.toml_files import load_scenario, read_scenario, write_part

NINE = """
family = "usual rear"
thread = "M9 x 1"
ball_count_left = 9
ball_diameter_left_mm = 6.35
over_locknut_width_mm = 126
protrusion_left_mm = 5
dropout_thickness_mm = 6
keyed_washer = false
material = "aluminium"
"""


def problems_of(text: str) -> list[str]:
    with pytest.raises(InputProblems) as error:
        read_scenario(text, name="mine.toml")
    return [str(problem) for problem in error.value.problems]


def test_nine_known_values_are_a_hub(tmp_path) -> None:
    (tmp_path / "mine.toml").write_text(NINE)
    hub = load_scenario(tmp_path / "mine.toml")
    assert isinstance(hub, KnownScenario)
    assert len(hub.known.known) == 8
    assert (hub.axle.thread_diameter, hub.axle.material) == (9e-3, "aluminium")
    assert not hub.stack.left.keyed_washer
    assert not hub.stack.right.keyed_washer
    assert find_scenario("mine", (tmp_path,), where="hub") == hub


def test_the_rest_of_a_scenario_stands_beside_what_is_known_and_is_kept() -> None:
    more = (
        'name = "Ada\'s"\nstory = "Grinds."\n[setting]\nback_off_turns = 0.1\n[condition]\ngrease = "dry"\n'
    )
    hub = read_scenario(NINE + more, name="mine")
    assert (hub.name, hub.story, hub.condition.grease) == ("Ada's", "Grinds.", "dry")
    changed = hub.with_ranges().with_setting(cone_held=False)
    text = write_part(changed)
    assert read_scenario(text, name="mine") == changed
    assert "row_spacing" not in text
    assert "pitch_diameter" not in text


def test_what_is_known_may_stand_where_a_whole_scenario_has_it() -> None:
    hub = read_scenario(
        'family = "usual rear"\n[hub]\nover_locknut_width_mm = 126\n[hub.left]\nball_count = 10\n', name=""
    )
    assert hub == KnownScenario.of(
        KnownHub(family="usual rear", over_locknut_width=0.126, ball_count_left=10)
    )


def test_a_hub_changed_beyond_what_is_known_is_written_whole() -> None:
    hub = KnownScenario.of(KnownHub(family="usual rear", clamp_force=5e3))
    changed = hub.replace(clamp=hub.clamp.replace(force=None, pick_up=0.5))
    back = read_scenario(write_part(changed), name="mine")
    assert not isinstance(back, KnownScenario)
    assert back.clamp == changed.clamp
    assert back.hub == changed.hub


def test_every_mistake_is_said_at_once_with_its_line() -> None:
    said = problems_of(
        'family = "nutted rear"\nthread = "M11"\nball_count_left = 90\nprotrusion_left_mm = 3\n'
        "[setting]\nback_of_turns = 0.2\n[hub.right]\nball_count = 2\n"
    )
    assert len(said) == 5
    assert said[0].startswith("mine.toml:2: thread = M11: must be one of 'M9 x 1'")
    assert "mine.toml:3: ball_count_left = 90: must be at most 24" in said
    assert "mine.toml:8: ball_count_right = 2: must be at least 5" in said
    assert any(
        line.startswith("mine.toml:4: protrusion_left_mm = 3: leaves an axle nut nothing") for line in said
    )
    assert any("did you mean back_off_turns?" in line for line in said)


@pytest.mark.parametrize("family", ['"usual bicycle"', "7", "[]"])
def test_a_family_that_is_none_is_named(family: str) -> None:
    (said,) = problems_of(f"family = {family}\n")
    assert "family" in said
    assert "must be one of 'usual rear', 'usual front'" in said


def test_what_is_known_has_no_table_of_its_own() -> None:
    (said,) = problems_of('family = "usual rear"\n[known]\nfamily = "usual front"\n')
    assert "known" in said
    assert "is not a known key" in said


def test_a_scenario_that_leaves_out_sizes_is_told_that_they_need_not_be_known() -> None:
    said = problems_of("[hub]\nover_locknut_width_mm = 130\n")
    assert sum('family = "usual rear"' in line for line in said) == 1


def test_a_misspelt_size_is_answered_with_the_sizes_of_such_a_file() -> None:
    (said,) = problems_of(NINE.replace("ball_diameter_left_mm", "ball_diamter_left_mm"))
    assert said.endswith("(did you mean ball_diameter_left_mm?)")
    (said,) = problems_of(NINE + "qqq = 1\n")
    assert "known here: family" in said
