"""What else should be known about a setting, in sentences."""

from collections.abc import Iterator, Mapping

from conemodel.base.units import DEG, MM, MPA, NEWTON, NEWTON_METRE
from conemodel.parts.scenario import Scenario
from conemodel.physics.clamp import skewer_yield_force
from conemodel.physics.rating import STATIC_PRESSURE
from conemodel.solve.stages.heat import fit_lost_to_heat
from conemodel.solve.stages.locknut import SHARE_OF_NUT
from conemodel.solve.stages.terms import SettingTerms, setting_terms
from conemodel.tasks.setting.adjustment import STATE_WORDS
from conemodel.tasks.setting.good_range import Window
from conemodel.tasks.setting.outlook import Spread
from conemodel.tasks.setting.stage_result import StageResult
from conemodel.tasks.wording import STAGE_WORDS, direction, fraction_of_turn

SEEN = 0.5e-6
"""A change of end play below this is not worth a word [m]. Judgement."""

LOOSENING_HEAT = 60.0
"""Warming of the shell from which the cups' press fit is spoken of [K]: it takes some 20 µm there. Judgement."""

RULE_OF_THUMB = "a quarter turn"
"""Back-off that is commonly taught. Common practice, no source."""


def is_axle_free(scenario: Scenario) -> bool:
    """Tell whether nothing kept the axle from turning with a locknut that was turned to lock it."""
    setting = scenario.setting
    return setting.axle_held == "nothing" and SHARE_OF_NUT[setting.technique] > 0.0


def notes_on(
    scenario: Scenario,
    terms: SettingTerms[float],
    window: Window,
    spreads: tuple[Spread, ...],
    stages: Mapping[str, StageResult],
) -> tuple[str, ...]:
    """Return the notes on a setting, most pressing first."""
    return (
        *_on_the_races(stages),
        *_on_the_clamp(scenario, terms),
        *_on_the_hold(scenario, terms),
        *_on_assumptions(terms, window, spreads),
        *_on_the_seat(scenario, terms),
        *_on_the_dropouts(scenario),
        *_on_the_ride(scenario, terms),
        *_on_the_back_off(scenario, terms, window),
    )


def _on_the_races(stages: Mapping[str, StageResult]) -> Iterator[str]:
    """Yield what dents the races, and which stages lie outside what the model holds for. Source: [ISO76]."""
    worst = max(stages.values(), key=lambda stage: stage.peak_pressure)
    if worst.peak_pressure > STATIC_PRESSURE:
        yield (
            f"The pressure on a race reaches {MPA.from_si(worst.peak_pressure):.0f} MPa "
            f"({STAGE_WORDS[worst.name]}): above {MPA.from_si(STATIC_PRESSURE):.0f} MPa dents stay in hard steel."
        )
    beyond = [STAGE_WORDS[stage.name] for stage in stages.values() if not stage.valid]
    if beyond:
        yield (
            f"Outside what the model holds for: {', '.join(beyond)}. There the balls leave their races, and the "
            "numbers say no more than far too loose or far too tight."
        )


def _on_the_clamp(scenario: Scenario, terms: SettingTerms[float]) -> Iterator[str]:
    """Yield what is near to going wrong where the clamp presses."""
    clamp = scenario.clamp
    if clamp.traits.held_by_ends:
        holds = skewer_yield_force(
            diameter=clamp.rod_diameter, pitch=clamp.rod_pitch, yield_strength=clamp.rod_yield
        )
        if terms.clamp.force > holds:
            yield (
                f"A rod of {MM.from_si(clamp.rod_diameter):g} mm yields at about {NEWTON.from_si(float(holds)):.0f} N: "
                "it cannot clamp as hard as that."
            )
    for side in terms.clamp.nearly_proud:
        margin = terms.clamp.sides[side].margin or 0.0
        yield (
            f"On the {side} the axle end stands only {MM.from_si(margin):.2f} mm back from the dropout's outer face: "
            "measure it again before riding."
        )
    if terms.clamp.source.startswith("capped"):
        yield f"The clamp force is {terms.clamp.source}: {NEWTON.from_si(terms.clamp.force):.0f} N."
    for side, state in terms.clamp.sides.items():
        if state.unlocked and state.entry == "locknut":
            yield (
                f"The clamp takes the last load off the locknut's thread on the {side}: "
                "it is held by the clamp only. Lock it harder."
            )
        elif state.unlocked:
            yield (
                f"On the {side} the axle nut presses harder than the locknut was locked: tightening it may turn "
                "locknut and cone. Check the play again after the nuts."
            )


def _on_the_hold(scenario: Scenario, terms: SettingTerms[float]) -> Iterator[str]:
    """Yield what locking did that the hands may not have meant."""
    joint, setting = terms.joint, scenario.setting
    adjusted = scenario.stack.side(scenario.hub.adjustable_side)
    if SHARE_OF_NUT[setting.technique] == 0.0:
        yield (
            "The cone is backed onto a held locknut: end play rises a hair, and no thread slack is taken up. If the "
            "locknut was run up hard enough to push the cone in first, end play is less by up to that slack, "
            f"{MM.from_si(scenario.axle.backlash_range[1]):.2f} mm."
        )
    elif joint.runs_in:
        yield (
            "Nothing holds the cone: it turns in with the locknut from the first touch, and the locknut drives it "
            f"into the balls up to some {NEWTON.from_si(joint.stop_preload) / 1e3:.0f} kN. Races are ruined this way."
        )
    elif setting.cone_held and joint.holding_torque > 0:
        holder = (
            "spanner on the cone, with the washer's key," if adjusted.keyed_washer else "spanner on the cone"
        )
        yield f"The {holder} has to hold {NEWTON_METRE.from_si(joint.holding_torque):.1f} N·m."
    elif adjusted.keyed_washer and not setting.cone_held:
        yield (
            "Only the washer's key keeps the cone from turning: it gives by "
            f"{DEG.from_si(adjusted.key_clearance):.0f}°, and a soft tab shears."
        )
    if is_axle_free(scenario):
        yield (
            "The axle is free to turn with the nut, so the cone may back out onto the nut instead of being pushed "
            "in: the play after locking cannot be predicted. Hold the axle in a soft-jawed vice."
        )


def _on_assumptions(terms: SettingTerms[float], window: Window, spreads: tuple[Spread, ...]) -> Iterator[str]:
    """Yield where an assumption alone changes the verdict."""
    state = window.state(terms.judged_end_play)
    for spread in spreads:
        if any(other != state for other in spread.states):
            low, high = (STATE_WORDS[each].lower() for each in spread.states)
            yield (
                f"{spread.label[:1].upper()}{spread.label[1:]}: not known ({spread.span}). At the low end this setting "
                f"would be {low}, at the high end {high}."
            )


def _on_the_seat(scenario: Scenario, terms: SettingTerms[float]) -> Iterator[str]:
    """Yield how the clamped bench differs from the frame."""
    if scenario.setting.clamp_seat == "dropouts":
        return
    frame = setting_terms(scenario.with_setting(clamp_seat="dropouts"))
    difference = frame.end_play("clamped") - terms.end_play("clamped") - frame.clamp.dropouts
    if frame.clamp.proud:
        yield "In the frame this axle stands proud of its dropout; the bench seat hides that."
    turn = DEG.from_si(abs(difference) / scenario.axle.lead_per_radian)
    if abs(difference) < 1e-9:
        yield f"Clamped on {scenario.setting.clamp_seat}, the bearing is as it will be in the frame."
    else:
        change = "looser" if difference > 0 else "tighter"
        yield (
            f"Clamped on {scenario.setting.clamp_seat}: in the frame it will be {MM.from_si(abs(difference)):.3f} mm "
            f"{change}, {turn:.1f}° of cone, because the clamp then enters by the "
            f"{'end of the axle' if frame.clamp.proud else 'locknut'}."
        )


def _on_the_dropouts(scenario: Scenario) -> Iterator[str]:
    """Yield what dropouts out of parallel do, and how to find that it is they."""
    if not any(scenario.frame.dropout_turns):
        return
    taken = setting_terms(scenario.with_setting(clamp_seat="dropouts")).clamp.dropouts
    if taken == 0.0:
        return
    yield (
        f"The dropouts are out of parallel: they bow the axle, and that takes {MM.from_si(-taken):.3f} mm of end play. "
        "To see it, close the same clamp on spacers of the dropouts' thickness on the bench, then in the frame: "
        "what changes comes from the frame. Have the dropouts made parallel rather than set the cone to suit them; a "
        "frame is bent straight by a qualified workshop only, by its maker's instructions, and never one of carbon "
        "or aluminium."
    )


def _on_the_ride(scenario: Scenario, terms: SettingTerms[float]) -> Iterator[str]:
    """Yield what changes the setting in riding: heat, a press fit it may loosen, a cup that moves."""
    ridden = terms.lengths["ridden"]
    heat, moved = ridden.get("heat", 0.0), ridden.get("cup_moved", 0.0)
    if abs(heat) >= SEEN:
        yield (
            f"As warm as described, the bearing rides {MM.from_si(abs(heat)):.3f} mm "
            f"{'looser' if heat > 0 else 'tighter'} than it was set."
        )
    lost = fit_lost_to_heat(scenario)
    if scenario.heat.shell_warming >= LOOSENING_HEAT and lost > 0.0:
        yield (
            f"A shell that is {scenario.heat.shell_warming:.0f} °C warmer takes {MM.from_si(lost):.3f} mm off the "
            "diameter by which its cups are held: an ordinary press fit may come loose, and the cups creep. Let brake "
            "and hub cool before going on."
        )
    if moved:
        yield (
            f"Cups that moved in the shell make the bearing {MM.from_si(abs(moved)):.3f} mm "
            f"{'looser' if moved > 0 else 'tighter'} than it was set. Setting the cone again does not last: a cup that "
            "turns or creeps has lost its seat; its shell, or the hub, is renewed."
        )


def _on_the_back_off(scenario: Scenario, terms: SettingTerms[float], window: Window) -> Iterator[str]:
    """Yield the back-off this hub wants, beside the rule of thumb."""
    unknown = scenario.setting.axle_held == "nothing" or terms.joint.runs_in
    if unknown or terms.clamp.proud or window.width <= 0:
        return
    lead = scenario.axle.lead_per_radian
    wanted = scenario.setting.back_off + (window.target - terms.judged_end_play) / lead
    way = direction(wanted * lead).split(" ")[0]
    yield (
        f"Locked and clamped like this, the cone belongs {DEG.from_si(abs(wanted)):.0f}° {way} from finger "
        f"contact ({fraction_of_turn(wanted)}); common practice says {RULE_OF_THUMB} for a first try. "
        f"The good range is only {DEG.from_si(window.width / lead):.0f}° wide, so feel it clamped and bring it in "
        "from there."
    )
