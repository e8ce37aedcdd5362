"""Where a hub's drawing stands at a stage of a prediction, and what is to be said of it there."""

from conemodel.base.units import DEG, MM
from conemodel.show.formatting import STAGE_WORDS, play_words
from conemodel.solve.stages.terms import STAGES
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.wording import force_words

ARROW = 1.4
"""How wide a gap is drawn before arrows have room in it [mm]."""


def state_of(prediction: Prediction, stage: str, *, factor: int) -> dict[str, float]:
    """Return every variable of a drawing, enlarged by `factor`, at a stage of a prediction, its wheel at rest."""
    plays = {name: float(MM.from_si(each.end_play)) for name, each in prediction.stages.items()}
    now, done = plays[stage], STAGES.index(stage)
    snug = prediction.scenario.setting.contact_found == "nut snug" and done == 0
    locked = float(done >= STAGES.index("locked"))
    clamped = float(done >= STAGES.index("clamped"))
    return {
        "cone": now,
        "nut": locked,
        "off": 0.0 if locked or snug else 1.0,
        "clamp": clamped,
        "lever": clamped,
        "apart": 1.0 - clamped,
        "angle": DEG.from_si(prediction.scenario.setting.back_off) if done else 0.0,
        "load": float(stage == "ridden"),
        "cone_flank": 1.0 if locked or snug else -1.0,
        "nut_flank": -1.0 if locked or snug else 0.0,
        "touch": float(now <= 0),
        "open": float(now * factor > ARROW),
        "at_backed_off": plays["backed_off"],
        "at_locked": plays["locked"],
        "aim": now - plays["clamped"],
    }


def describe(prediction: Prediction, stage: str, *, factor: int, coarser: int) -> str:
    """Return what the close view shows at a stage, and at which scales, for who does not see it."""
    result = prediction.stages[stage]
    gap = play_words(result.end_play, unit=" mm")
    if result.end_play > 0:
        gap += " between ball and cone"
    elif result.preload > 0:
        gap += f", the balls pinched with {force_words(result.preload)}"
    carried = " A ball below the axle carries the rider." if stage == "ridden" else ""
    return (
        f"{STAGE_WORDS[stage]}: {gap}.{carried} "
        f"Movement is drawn {factor} times larger than the parts, whose outer form is schematic, "
        f"and the thread {coarser} times coarser."
    )
