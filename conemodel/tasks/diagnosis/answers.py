"""What a diagnosis answers: is it safe to ride, is the hub sound, where does the adjustment stand."""

from collections.abc import Sequence
from dataclasses import dataclass

from conemodel.parts.priors import Beliefs
from conemodel.parts.readings import Readings
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import State
from conemodel.tasks.diagnosis.asked_first import asked_first
from conemodel.tasks.diagnosis.best_turn import CURABLE, Move
from conemodel.tasks.diagnosis.causes import CAUSES, WHOSE_SPOT
from conemodel.tasks.diagnosis.evidence import NOTCHY
from conemodel.tasks.diagnosis.fault_list import FoundFault
from conemodel.tasks.diagnosis.fit import Fit
from conemodel.tasks.diagnosis.posterior import Posterior
from conemodel.tasks.diagnosis.procedure import act_words, measured_first, move_words, say_chance
from conemodel.tasks.diagnosis.value_of_measuring import NextStep
from conemodel.tasks.headline import DO_NOT_RIDE, STRIP, Answer
from conemodel.tasks.setting.adjustment import STATE_WORDS
from conemodel.tasks.setting.chances import SURE
from conemodel.tasks.setting.defects import defects_of
from conemodel.tasks.setting.good_range import Window

STRIP_FIRST = f"{STRIP}: no turn of the cone yet."
"""What a mechanic does next about a race that is felt."""

STRIPPED_FOR = {
    NOTCHY: Answer(
        words="Notchy",
        why="Worn, dented or pitted races are likely: they are felt as steps, with or without play. Feel both "
        "races of both sides with a ball-point tip.",
        act=STRIP_FIRST,
    ),
    "tight in one place": Answer(words="Tight in one place", why=WHOSE_SPOT, act=STRIP_FIRST),
    "gritty": Answer(
        words="Gritty", why="Grit, or dry grease: clean it before the races are judged.", act=STRIP_FIRST
    ),
}
"""What is said of a word of the fingers that no adjustment answers, where no cause stands out."""

GROWING = tuple(name for name, cause in CAUSES.items() if cause.grows(Beliefs()) > 0.0)
"""Causes under which end play grows in riding."""

CAME_BACK_FROM = 1 - SURE
"""Chance that something gives in riding from which it is looked for before the cone is set again. Assumption."""

CAME_BACK = (
    "Look in this order: is the far side locked hard; has the keyed washer lost its tab; does the locknut come up hard "
    "and stay; does a cup turn in its shell; do the races wear, in (new parts, once) or out."
)
"""What to look at where play grew in riding."""

NO_SETTING = Answer(
    words="No good setting",
    why="No setting of this hub is good all the way round.",
    act="Look at axle, cones, cups and balls first.",
)
"""What is said of a hub whose good range is empty."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Where the adjustment stands.

    Attributes:
        states: chance of each state now, clamped; move: the best turn; ahead: what to measure next.
        stopped: something unsafe or unsound comes first; curable: a wrong setting is likelier than all else.
    """

    states: dict[State, float]
    move: Move | None
    ahead: tuple[NextStep, ...]
    stopped: bool
    curable: bool

    @property
    def made(self) -> Move | None:
        """The turn to make; None where none is advised."""
        return self.move if self.move is not None and self._advised and self.move.worth_it else None

    @property
    def leave(self) -> bool:
        """Whether it is right, or as near as a hand gets it."""
        return self._advised and self.made is None

    @property
    def _advised(self) -> bool:
        return self.curable and self.move is not None and self.move.known


def unsafe_answers(
    faults: Sequence[FoundFault], fits: Sequence[Fit], readings: Readings
) -> tuple[Answer, ...]:
    """Return why not to ride, most serious first; what its axle leaves open is asked before all else."""
    stops = [_answer_of(fault, readings) for fault in faults if fault.blocks and fault.unsafe]
    return (*asked_first(fits, faults, readings), *stops)


def unsound_answers(
    faults: Sequence[FoundFault], posterior: Posterior, window: Window, readings: Readings
) -> tuple[Answer, ...]:
    """Return what no turn of the cone cures: what was seen, measured, is likely, was felt, and what is described."""
    word, grown = word_to_strip_for(readings), chance_came_back(posterior, readings)
    stops = [fault for fault in faults if fault.blocks and not fault.unsafe]
    if word is not None:  # what was felt says more than a cause that is no more than a toss-up
        stops = [fault for fault in stops if fault.found != "likely" or fault.chance >= SURE]
    if (
        grown >= CAME_BACK_FROM
    ):  # what lets play come back is looked for together: play does not tell it apart
        stops = [fault for fault in stops if fault.found != "likely" or fault.key not in GROWING]
    found = [_answer_of(fault, readings) for fault in stops]
    if word is not None and all(fault.key == "elsewhere" for fault in stops):
        found.append(STRIPPED_FOR[word])
    if grown >= CAME_BACK_FROM:
        how_sure = say_chance(grown, measured=readings.play_measured)
        found.append(
            Answer(
                words="Play came back with riding",
                why=f"That something gives, and the last turn was not wrong, is {how_sure}. {CAME_BACK}",
                act="Find what gives before it is set again.",
            )
        )
    if window.width <= 0:
        found.append(NO_SETTING)
    said = [fault.key for fault in stops]
    described = (
        defect.answer
        for defect in defects_of(posterior.model.scenario)
        if defect.sure and defect.cause not in said
    )
    return (*found, *(answer for answer in described if answer is not None))


def chance_came_back(posterior: Posterior, readings: Readings) -> float:
    """Return the chance that something gives in riding; 0 where the wheel was not ridden between rounds."""
    if not any(look.was_ridden for look in readings.rounds):
        return 0.0
    return sum(posterior.of(cause) for cause in GROWING)


def is_to_be_looked_at(readings: Readings, posterior: Posterior, faults: Sequence[FoundFault]) -> bool:
    """Return whether the next step is a look at the parts, and no gauge: felt, found, or come back with riding."""
    return (
        word_to_strip_for(readings) is not None
        or any(fault.blocks and fault.found != "likely" for fault in faults)
        or chance_came_back(posterior, readings) >= CAME_BACK_FROM
    )


def word_to_strip_for(readings: Readings) -> str | None:
    """Return the last word of the fingers, where it means that the hub is stripped before anything else."""
    words = [word for look in readings.rounds for word in (look.turns_open, look.turns_closed) if word]
    return words[-1] if words and words[-1] in STRIPPED_FOR else None


def _answer_of(fault: FoundFault, readings: Readings) -> Answer:
    """Return a fault in the largest words: as found where it was seen or measured, else with its chance."""
    likely = fault.found == "likely"
    act = "No turn of the cone cures it." if fault.key in CAUSES else "Put that right first."
    if likely and CAUSES[fault.key].inside:
        act = STRIP_FIRST
    words = fault.words[:1].upper() + fault.words[1:]
    return Answer(
        words=f"{DO_NOT_RIDE}: {fault.words}" if fault.unsafe else words,
        certainty=say_chance(fault.chance, measured=readings.play_measured) if likely else "",
        why=fault.advice,
        act="" if fault.unsafe else act,
        unsafe=fault.unsafe,
    )


def masked(besides: Sequence[str]) -> Answer:
    """Return what is said where play grew on closing and something besides the bearing was found to rock."""
    rocks = " and ".join(besides)
    return Answer(
        words="Not known yet",
        why="Play grew on closing, which a bearing's never does. What was found to rock besides hides what the bearing "
        f"does with the clamp closed: {rocks}.",
        act="No turn yet: hold that still, or put it right, and feel again with the clamp closed.",
    )


def contradicted(clashes: Sequence[str]) -> Answer:
    """Return what is said of readings that contradict each other."""
    return Answer(
        words="Readings do not go together",
        why=" ".join(("The readings contradict each other, so no turn is advised.", *clashes)),
        act="No turn yet: take them again.",
    )


def adjustment_answer(
    posterior: Posterior,
    standing: Standing,
    readings: Readings,
    faults: Sequence[FoundFault],
) -> Answer:
    """Return where the cone stands and the turn to make; none while something stopped it or is likelier."""
    measured = readings.play_measured
    if standing.stopped:
        return Answer(words="No turn of the cone yet", why="Put that right first, then feel again.")
    if not standing.curable:
        first, second = ((one.label, say_chance(one.chance, measured=measured)) for one in faults[:2])
        return Answer(
            words="Not known yet",
            why=f"{first[0]} ({first[1]}) or {second[0]} ({second[1]}) together are likelier than a wrong setting.",
            act="No turn yet: look at these first.",
        )
    move = standing.move
    if move is None or not move.known:
        chance = say_chance(move.chance if move else 0.0, measured=measured)
        first_step = f" First {standing.ahead[0].label}." if standing.ahead else ""
        return Answer(
            words="Not known yet",
            why=f"Too little is known to advise a turn: with the best one, right is {chance}.{first_step}",
            act="No turn yet: look further first.",
        )
    return _on_setting(standing, move, posterior.model.scenario, measured=measured)


def sound_enough(posterior: Posterior) -> bool:
    """Return whether causes that turning the cone cures, or does no harm to, are likelier than all others."""
    return sum(posterior.of(cause) for cause in CURABLE) >= 0.5


def _on_setting(standing: Standing, move: Move, scenario: Scenario, *, measured: bool) -> Answer:
    """Return the state, named outright where it is likely enough, and the turn to make or none.

    Where it is not, what can still be measured comes before the turn.
    """
    first, second = sorted(standing.states, key=lambda name: -standing.states[name])[:2]
    words, certainty = STATE_WORDS[first], say_chance(standing.states[first], measured=measured)
    act = act_words(move) if move.worth_it else "Leave it."
    if standing.states[first] < SURE:
        words, certainty = f"{words} or {STATE_WORDS[second].lower()}", "not to be told from these readings"
        act = measured_first(act) if standing.ahead else act
    why = move_words(move, scenario, measured=measured)
    if not move.worth_it:
        right = say_chance(move.chance_now, measured=measured)
        why = f"In the good range now: {right}. No turn betters that without a risk of tight."
    return Answer(words=words, certainty=certainty, why=why, act=act)
