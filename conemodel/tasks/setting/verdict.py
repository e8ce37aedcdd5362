"""The verdict on a setting: whether it is safe, whether the hub is sound, where the adjustment stands, how sure."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from conemodel.base.units import MM
from conemodel.parts.known_doubts import doubts_of
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import State
from conemodel.solve.stages.terms import SettingTerms
from conemodel.tasks.headline import Headline, headline_of
from conemodel.tasks.setting.adjustment import STATE_WORDS, adjustment_of, is_worth_making
from conemodel.tasks.setting.advice import is_axle_free, notes_on
from conemodel.tasks.setting.chances import Chances
from conemodel.tasks.setting.good_range import Window
from conemodel.tasks.setting.outlook import Outlook, moved_out
from conemodel.tasks.setting.stage_result import Felt, StageResult
from conemodel.tasks.setting.turn import Turn, turn_of
from conemodel.tasks.wording import force_words

CURVE_ERROR = 0.01
"""Share by which play read from a curve may miss the limit it was set to [-]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What to make of a setting.

    Attributes:
        state: loose, right or tight once clamped, were everything as assumed.
        chances: how likely it is each, over everything assumed; None where locking cannot be told.
        headline: the largest words, and what stands below them.
        turn: the turn to make, None where no turn of the cone helps.
        notes: what else should be known.
    """

    state: State
    chances: Chances | None
    headline: Headline
    turn: Turn | None
    notes: tuple[str, ...] = ()

    @property
    def turn_to_make(self) -> Turn | None:
        """The turn, where nothing else comes first and making it is better than leaving the cone where it is."""
        if self.headline.question != "adjustment":
            return None
        worth = (
            self.chances is not None and self.turn is not None and is_worth_making(self.chances, self.turn)
        )
        return self.turn if worth else None

    @property
    def sentence(self) -> str:
        """The whole verdict in plain words, the most serious first."""
        return self.headline.sentences

    @property
    def named(self) -> State | None:
        """The state the words name; None where it is not to be told, or where something else comes first."""
        return None if self.chances is None or self.turn is None else self.chances.named

    @property
    def unsafe(self) -> tuple[str, ...]:
        """Reasons not to ride, in sentences, most serious first; usually none."""
        return self.headline.unsafe


def verdict_of(
    scenario: Scenario, terms: SettingTerms[float], outlook: Outlook, stages: Mapping[str, StageResult]
) -> Verdict:
    """Return the verdict on a setting, from its `stages` and the outlook of its hub, with notes."""
    spreads = outlook.spreads(moved_out(scenario))
    notes = (*doubts_of(scenario), *notes_on(scenario, terms, outlook.window, spreads, stages))
    return replace(judge(scenario, terms, outlook, stages), notes=notes)


def judge(
    scenario: Scenario, terms: SettingTerms[float], outlook: Outlook, felt: Mapping[str, Felt] | None
) -> Verdict:
    """Return the verdict on a cone backed off as `terms` have it, from what is `felt` clamped and ridden; no notes.

    With None nothing is said of what is felt, which decides nothing: all else is the same. It is judged as it rides:
    clamped, with what heat and creeping cups add where the scenario has them.
    """
    moved = terms.lengths["backed_off"]["back_off"]
    window, spreads = outlook.window, outlook.spreads(moved)
    state = window.state(terms.judged_end_play)
    obstacle = outlook.obstacle
    turn = None if obstacle else turn_of(scenario, terms, window, spreads, outlook.aim, moved=moved)
    chances = None if is_axle_free(scenario) else outlook.drawn.chances_at(moved)
    described = "" if felt is None else " ".join(_describe_states(scenario, terms, window, felt))
    adjustment = adjustment_of(scenario, state, chances, turn, obstacle=obstacle, felt=described)
    if outlook.unsound:  # how it stands is told, and what to do about it waits
        adjustment = replace(adjustment, act="", more="")
    headline = headline_of(unsafe=outlook.unsafe, unsound=outlook.unsound, adjustment=adjustment)
    return Verdict(state=state, chances=chances, headline=headline, turn=turn)


def _describe_states(
    scenario: Scenario, terms: SettingTerms[float], window: Window, felt: Mapping[str, Felt]
) -> Iterator[str]:
    """Yield what is felt as it rides, and how it is clamped where heat or creeping cups make another state of that."""
    clamped, ridden = (terms.end_play(name) for name in ("clamped", "ridden"))
    if is_axle_free(scenario):
        yield "The axle turned with nut and cone, so what locking did cannot be told."
        when = "If the nut pushed the cone in, then clamped"
        yield _describe_state(scenario, window.state(clamped), felt["clamped"], when=when)
        return
    if ridden == clamped:
        yield _describe_state(scenario, window.state(clamped), felt["clamped"], when="Clamped")
        return
    causes = {"heat": "warm", "cup_moved": "with its cups crept"}
    when = " and ".join(words for key, words in causes.items() if key in terms.lengths["ridden"])
    yield _describe_state(scenario, window.state(ridden), felt["ridden"], when=f"Ridden {when}")
    if window.state(clamped) != window.state(ridden):
        yield f"Clamped, as it was set, it is {STATE_WORDS[window.state(clamped)].lower()}."


def _describe_state(scenario: Scenario, state: State, stage: Felt, *, when: str) -> str:
    """Return what is felt after a stage, `when` saying which."""
    if not stage.valid:
        how = "loose" if stage.end_play > 0 else "tight"
        return f"{when}, it is far too {how}: the balls leave their races, and no number says how much."
    rim_play, preload = stage.rim_play, stage.preload
    least = (1 + CURVE_ERROR) * scenario.limits.rim_play
    if state == "loose":
        return f"{when}, it still rocks {MM.from_si(rim_play):.1f} mm at the rim."
    if state == "tight":
        return f"{when}, it is too tight: the balls are pinched with {force_words(preload)}."
    play = (
        f"it rocks {MM.from_si(rim_play):.1f} mm at the rim"
        if rim_play > least
        else "no play is felt at the rim"
    )
    pinched = f"are pinched with {force_words(preload)}" if preload >= 0.5 else "are not pinched"
    return f"{when}, {play} and the balls {pinched}: within the limits."
