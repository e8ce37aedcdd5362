"""A story told to a class: what may be seen at each step, and nothing that is still to be predicted.

`view_of` is a pure function of story, step and whether it is revealed. Before a reveal the view holds no number, no
word and no term of the step that is asked about, so nothing built from it can tell.
"""

from dataclasses import dataclass, replace
from typing import Literal

from conemodel.parts.felt_play import felt_word
from conemodel.parts.hub import Side as HubSide
from conemodel.parts.lesson import Place, Staged, Story, StoryStep
from conemodel.solve.stages.terms import STAGES, Term
from conemodel.tasks.setting.predict import Prediction, predict
from conemodel.tasks.setting.stage_result import StageResult

Key = Literal["next", "back", "reveal", "swap"]

KEYS: tuple[Key, ...] = ("next", "back", "reveal", "swap")
"""All a story needs."""

OPTIONS = {
    "turn": ("in (clockwise)", "out (anticlockwise)", "leave it"),
    "change": ("tighter", "looser", "neither"),
}
"""What a class can commit to, by what is asked."""

NONE_OF_THESE = "none of the three"
"""The answer where no turn of the cone helps."""

UNCHANGED = 1e-6
"""A step that changes the end play by less is called neither tighter nor looser [m]: no hand finds it."""


StageTerms = tuple[tuple[str, tuple[Term, ...]], ...]
"""Names of stages, each with what it added to the end play."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Played:
    """A story with both its predictions."""

    story: Story
    left: Prediction
    right: Prediction


@dataclass(frozen=True, slots=True, kw_only=True)
class Position:
    """Where a telling stands: `step` counts the shown steps from 0; `revealed`: its answer is shown; `swapped`."""

    step: int = 0
    revealed: bool = False
    swapped: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class StageReadings:
    """What one side has come to.

    Attributes:
        end_play: [m]; preload: [N]; torque: from preload [N·m]; peak_pressure: worst on a race [Pa].
        play: free play where this side is felt, stop to stop [m]; felt: none, slight or clear there.
        heaviest_ball: load of the hardest pressed ball [N]; carrying: balls that carry, of `balls` in both rows.
    """

    end_play: float
    preload: float
    torque: float
    peak_pressure: float
    play: float
    felt: str
    heaviest_ball: float
    carrying: int
    balls: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SideView:
    """One side as it may be seen.

    Attributes:
        side: of the story, left or right; caption; place: where its play is felt.
        stage: the last stage that may be drawn, None before the first.
        terms: of each stage that may be drawn, in order; new: those of them this step adds.
        lead: of the cone's thread [m/rad]; readings: None before the first stage.
        good: the good range, clamped [m], once the clamp is closed and shown.
        answer: what was right to commit to, once revealed and asked about this side.
        verdict: the whole sentence, unsafe: reasons not to ride, once the clamp is closed and shown.
    """

    side: HubSide
    caption: str
    place: Place
    stage: str | None
    terms: StageTerms
    new: tuple[str, ...]
    lead: float
    readings: StageReadings | None
    good: tuple[float, float] | None
    answer: str | None
    verdict: str | None
    unsafe: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """All that may be seen at one moment of a story.

    Attributes:
        title, opening: of the story; number: of the step, from 1; count: of steps.
        stage: which the step is about; question: to commit to, empty where none; options: to choose from.
        about: captions of the sides asked about, in the order they stand.
        revealed: the step is shown; reveal: what to say then; note: for the teacher, then.
        sides: as they stand from left to right.
        at_start, at_end: nothing before, nothing after.
    """

    title: str
    opening: str
    number: int
    count: int
    stage: str
    question: str
    options: tuple[str, ...]
    about: tuple[str, ...]
    revealed: bool
    reveal: str | None
    note: str | None
    sides: tuple[SideView, SideView]
    at_start: bool
    at_end: bool


def play_story(staged: Staged) -> Played:
    """Return a story with both sides predicted.

    Raises:
        NotConverged: no balance of forces was found.
    """
    return Played(story=staged.story, left=predict(staged.left), right=predict(staged.right))


def positions(story: Story) -> tuple[Position, ...]:
    """Return every position of a telling in order: a step that asks stands hidden first, then revealed."""
    found: list[Position] = []
    for number, name in enumerate(story.steps.shown):
        if _step(story, name).ask != "nothing":
            found.append(Position(step=number))
        found.append(Position(step=number, revealed=True))
    return tuple(found)


def start(story: Story) -> Position:
    """Return where a telling begins."""
    return positions(story)[0]


def press(story: Story, position: Position, key: Key) -> Position:
    """Return where a key leads. Next never reveals; back undoes the last next or reveal; a useless key does nothing."""
    order = positions(story)
    at = order.index(replace(position, swapped=False))
    if key == "swap":
        return replace(position, swapped=not position.swapped)
    hidden = not position.revealed
    if key == "back":
        at = max(at - 1, 0)
    elif (key == "reveal") == hidden:
        at = min(at + 1, len(order) - 1)
    return replace(order[at], swapped=position.swapped)


def view_of(played: Played, position: Position) -> View:
    """Return what may be seen of a story at one of its own positions."""
    story = played.story
    shown = story.steps.shown
    name = shown[position.step]
    step = _step(story, name)
    order = positions(story)
    at = order.index(replace(position, swapped=False))
    left, right = (_side(played, side, position) for side in _SIDES)
    sides = (right, left) if position.swapped else (left, right)
    return View(
        title=story.title.strip(),
        opening=story.opening.strip(),
        number=position.step + 1,
        count=len(shown),
        stage=name,
        question=step.question.strip(),
        options=OPTIONS.get(step.ask, ()),
        about=tuple(side.caption for side in sides if _is_asked(step, side.side)),
        revealed=position.revealed,
        reveal=step.reveal.strip() if position.revealed else None,
        note=step.note.strip() if position.revealed else None,
        sides=sides,
        at_start=at == 0,
        at_end=at == len(order) - 1,
    )


_SIDES: tuple[HubSide, HubSide] = ("left", "right")


def _step(story: Story, name: str) -> StoryStep:
    step: StoryStep = getattr(story.steps, name)
    return step


def _is_asked(step: StoryStep, side: HubSide) -> bool:
    return step.ask != "nothing" and step.about in (side, "both")


def _side(played: Played, side: HubSide, position: Position) -> SideView:
    """Return one side as it may be seen."""
    prediction: Prediction = getattr(played, side)
    told = getattr(played.story, side)
    shown = played.story.steps.shown
    step = _step(played.story, shown[position.step])
    seen = position.step + position.revealed
    stage = shown[seen - 1] if seen else None
    clamped = stage in ("clamped", "ridden")
    before = shown[position.step - 1] if position.step else None
    now = stage if position.revealed else None
    answer = answer_of(prediction, step, before, now) if now and _is_asked(step, side) else None
    terms, old = _terms(prediction, stage), _terms(prediction, before if position.revealed else stage)
    window, verdict = prediction.window, prediction.verdict
    return SideView(
        side=side,
        caption=told.caption.strip(),
        place=told.place,
        stage=stage,
        terms=terms,
        new=tuple(name for name, _ in terms if name not in dict(old)),
        lead=prediction.scenario.axle.lead_per_radian,
        readings=_readings(prediction, stage, told.place) if stage else None,
        good=(window.tight_edge, window.loose_edge) if clamped and window.width > 0 else None,
        answer=answer,
        verdict=verdict.sentence if clamped else None,
        unsafe=verdict.unsafe if clamped else (),
    )


def answer_of(prediction: Prediction, step: StoryStep, before: str | None, now: str) -> str:
    """Return the right answer to a step that leads from the stage `before` to `now`; it is always predicted."""
    if step.ask == "change":
        start = prediction.stages[before].end_play if before else 0.0
        change = prediction.stages[now].end_play - start
        tighter, looser, neither = OPTIONS["change"]
        return neither if abs(change) < UNCHANGED else looser if change > 0 else tighter
    verdict = prediction.verdict
    inwards, outwards, leave = OPTIONS["turn"]
    if verdict.unsafe:
        return NONE_OF_THESE
    if verdict.state == "right":
        return leave
    if verdict.turn is None:
        return NONE_OF_THESE
    return outwards if verdict.turn.length > 0 else inwards


def _terms(prediction: Prediction, upto: str | None) -> StageTerms:
    """Return the terms of the stages up to one of them, of none where that is None."""
    names = STAGES[: STAGES.index(upto) + 1] if upto else ()
    return tuple((name, prediction.stages[name].terms) for name in names)


def _readings(prediction: Prediction, name: str, place: Place) -> StageReadings:
    """Return what a stage has come to."""
    stage: StageResult = prediction.stages[name]
    limits = prediction.scenario.limits
    rows = (stage.solution.left.ball_load, stage.solution.right.ball_load)
    play = stage.rim_play if place == "rim" else stage.axle_end_play
    return StageReadings(
        end_play=stage.end_play,
        preload=stage.preload,
        torque=stage.torque,
        peak_pressure=stage.peak_pressure,
        play=play,
        felt=felt_word(limits, place, play),
        heaviest_ball=float(max(row.max() for row in rows)),
        carrying=sum(int((row[0] > 0).sum()) for row in rows),
        balls=sum(row.shape[-1] for row in rows),
    )
