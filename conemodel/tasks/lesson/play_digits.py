"""In how many digits the plays of a story are told, so that no figure has two words."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations

from conemodel.base.units import MM
from conemodel.parts.felt_play import Place, felt_word
from conemodel.tasks.setting.predict import Prediction
from conemodel.tasks.setting.stage_result import StageResult
from conemodel.tasks.wording import digits_apart

FINEST = 9
"""Most digits after the point of a play in mm: where two words part what else looks alike."""


def play_at(place: Place, stage: StageResult) -> float:
    """Return the free play of a stage where it is felt [m], stop to stop."""
    return stage.rim_play if place == "rim" else stage.axle_end_play


def digits_of_plays(sides: Iterable[tuple[Prediction, Place]], shown: Sequence[str]) -> int:
    """Return how many digits [mm] tell apart plays with different words, over both sides and all stages `shown`."""
    plays = [play for prediction, place in sides for play in _plays(prediction, place, shown)]
    apart = (
        digits_apart(one, other, least=1, most=FINEST)
        for (place, one, felt), (other_place, other, other_felt) in combinations(plays, 2)
        if place == other_place and felt != other_felt
    )
    return max(apart, default=1)


def _plays(prediction: Prediction, place: Place, shown: Sequence[str]) -> Iterator[tuple[Place, float, str]]:
    """Yield the plays of one side [mm] after each stage in which they are told, each with its word."""
    for name in shown:
        stage = prediction.stages[name]
        if stage.end_play > 0 and name != "ridden":
            play = play_at(place, stage)
            yield place, MM.from_si(play), felt_word(prediction.scenario.limits, place, play)
