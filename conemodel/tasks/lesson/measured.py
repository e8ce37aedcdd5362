"""What is known of a side of a story beyond what the program assumes of any hub: measured, and told with its error.

All of it stands on the wall. Whatever else is not measured is drawn over the program's own ranges.
"""

from dataclasses import dataclass, replace

import numpy as np

from conemodel.base.units import KILONEWTON, MM, UM, Array
from conemodel.parts.distributions import Uncertain, UncertainLength, UncertainTurn
from conemodel.parts.lesson import Story, StorySide
from conemodel.parts.unknowns.hands import BACK_OFF_ERROR, DIAL_ERROR, FEELER_ERROR, MARK_ERROR
from conemodel.parts.unknowns.joint import MEASURED_FORCE
from conemodel.solve.stages.locknut import slack_share
from conemodel.solve.stages.terms import STAGES
from conemodel.tasks.setting.drawn_hubs import HUBS, DrawnHubs
from conemodel.tasks.setting.outlook import moved_out, outlook_of
from conemodel.tasks.setting.predict import Prediction

SEED = 21
"""Of what hand and instrument err: any number, always the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """One thing a story says of a side: its words with the error, and from which stage on it stands there."""

    words: str
    since: str = "contact"


def list_known(prediction: Prediction, told: StorySide) -> tuple[Known, ...]:
    """Return what narrows the program's ranges on this side, each with its error.

    How the cone was set and how far it slid on its thread are left out where a gauge tells what both came to.
    """
    scenario = prediction.scenario
    gauged = _is_gauged(prediction, told)
    mark = MARK_ERROR if told.pen_mark else BACK_OFF_ERROR
    how = "from a pen mark" if told.pen_mark else "by eye"
    known = [] if gauged else [Known(words=f"set {how} ±{mark.high:g}°")]
    slack_tells = not gauged or scenario.setting.contact_found == "nut snug"
    if scenario.axle.thread_clearance is not None and slack_tells:
        slack, error = MM.from_si(scenario.axle.backlash), MM.from_si(UM.to_si(FEELER_ERROR.high))
        known.append(Known(words=f"slack by feeler {slack:.2f} ±{error:.2g} mm"))
    if scenario.clamp.force is not None:
        force = KILONEWTON.from_si(scenario.clamp.force)
        known.append(Known(words=f"clamp measured {force:.1f} ±{force * MEASURED_FORCE.high:.1f} kN"))
    if gauged:
        read, error = MM.from_si(prediction.stages["locked"].end_play), MM.from_si(UM.to_si(DIAL_ERROR.high))
        known.append(Known(words=f"locked, by gauge {read:.2f} ±{error:.2g} mm", since="locked"))
    return tuple(known)


def draw_sides(left: Prediction, right: Prediction, story: Story) -> tuple[DrawnHubs, DrawnHubs]:
    """Return the hubs that either side may be, each as its cone was set: end plays after every stage (n,) [m].

    What is not known is the same on both sides where they are one hub, and so is what the hand erred where that hub was
    set once: where nothing differs before the clamp.
    """
    once = left.stages["locked"].terms == right.stages["locked"].terms
    random = np.random.default_rng(SEED)
    first = _draw(left, story.left, random)
    second = _draw(right, story.right, np.random.default_rng(SEED) if once else random)
    if story.left.scenario == story.right.scenario:
        return first, second
    order = random.permutation(HUBS)
    ends = {stage: end_play[order] for stage, end_play in second.end_plays.items()}
    tight, loose, error = (each[order] for each in (second.tight_edge, second.loose_edge, second.hand_error))
    return first, DrawnHubs(end_plays=ends, tight_edge=tight, loose_edge=loose, hand_error=error)


def _draw(prediction: Prediction, told: StorySide, random: np.random.Generator) -> DrawnHubs:
    """Return the hubs that one side may be."""
    scenario = prediction.scenario
    drawn = outlook_of(scenario).drawn
    lead = scenario.axle.lead_per_radian if scenario.setting.axle_held != "nothing" else 0.0
    by_hand = UncertainTurn.of(MARK_ERROR if told.pen_mark else BACK_OFF_ERROR)
    turned = moved_out(scenario) + lead * _errors(by_hand, random)
    feeler = _errors(UncertainLength.of(FEELER_ERROR), random) * slack_share(scenario.setting)
    gauge = _errors(UncertainLength.of(DIAL_ERROR), random)
    ends = {"contact": drawn.end_plays["contact"]}
    for stage in STAGES[1:]:
        ends[stage] = drawn.end_plays[stage] + turned
        if stage != "backed_off" and scenario.axle.thread_clearance is not None:
            ends[stage] = ends[stage] + feeler
    if _is_gauged(prediction, told):
        read = prediction.stages["locked"].end_play + gauge
        ends |= {stage: ends[stage] + read - ends["locked"] for stage in STAGES[2:]}
    return replace(drawn, end_plays=ends)


def _errors(spread: Uncertain, random: np.random.Generator) -> Array:
    """Return what hand or instrument errs, hub by hub (n,) [SI]."""
    return spread.at(random.random(HUBS))


def _is_gauged(prediction: Prediction, told: StorySide) -> bool:
    """Return whether a gauge along the axle tells the end play that locking left: pinched, there is none to read."""
    return told.gauged and prediction.stages["locked"].end_play > 0
