"""A story told to a class: what may be seen at each step, and nothing that is still to be predicted.

`view_of` is a pure function of story, step and whether it is revealed. Before a reveal the view holds no number, no
word and no term of the step that is asked about, so nothing built from it can tell.
"""

from dataclasses import dataclass, replace

from conemodel.parts.felt_play import Place, felt_word
from conemodel.parts.hub import Side as HubSide
from conemodel.parts.lesson import Staged, Story, StoryStep
from conemodel.solve.stages.terms import STAGES, Term
from conemodel.tasks.lesson.answers import OPTIONS, Answer, Told, answer_of
from conemodel.tasks.lesson.measured import Known, draw_sides, list_known
from conemodel.tasks.lesson.play_digits import digits_of_plays, play_at
from conemodel.tasks.lesson.position import Position, positions, step_of
from conemodel.tasks.setting.predict import Prediction, predict
from conemodel.tasks.setting.stage_result import StageResult
from conemodel.tasks.setting.travel import assumed_ends

StageTerms = tuple[tuple[str, tuple[Term, ...]], ...]
"""Names of stages, each with what it added to the end play."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Played:
    """A story with both its sides predicted, and with the hubs each may be."""

    story: Story
    left: Prediction
    right: Prediction
    told: dict[HubSide, Told]


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
        known: what was measured of it so far and how it was set, with the errors.
        assumed: end plays between which what nobody measured may put it [m], as `assumed_ends`; None before its stage,
            and of a cone that runs in.
        good: the good range, clamped [m], once the clamp is closed and shown.
        answer: what was right to commit to and how sure it is, once revealed and asked about this side.
        unsafe: reasons not to ride, once the clamp is closed and shown.
    """

    side: HubSide
    caption: str
    place: Place
    stage: str | None
    terms: StageTerms
    new: tuple[str, ...]
    lead: float
    readings: StageReadings | None
    known: tuple[Known, ...]
    assumed: tuple[float, float] | None
    good: tuple[float, float] | None
    answer: Answer | None
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
        digits: of plays in mm, so that in no two steps, shown or not, one figure has two words.
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
    digits: int
    at_start: bool
    at_end: bool


def play_story(staged: Staged) -> Played:
    """Return a story with both sides predicted.

    Raises:
        NotConverged: no balance of forces was found.
    """
    story, left, right = staged.story, predict(staged.left), predict(staged.right)
    drawn = zip(_SIDES, (left, right), draw_sides(left, right, story), strict=True)
    told = {side: Told(prediction=each, drawn=hubs) for side, each, hubs in drawn}
    return Played(story=story, left=left, right=right, told=told)


def view_of(played: Played, position: Position) -> View:
    """Return what may be seen of a story at one of its own positions."""
    story = played.story
    shown = story.steps.shown
    name = shown[position.step]
    step = step_of(story, name)
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
        digits=digits_of_plays(((played.left, story.left.place), (played.right, story.right.place)), shown),
        at_start=at == 0,
        at_end=at == len(order) - 1,
    )


_SIDES: tuple[HubSide, HubSide] = ("left", "right")


def _is_asked(step: StoryStep, side: HubSide) -> bool:
    return step.ask != "nothing" and step.about in (side, "both")


def _side(played: Played, side: HubSide, position: Position) -> SideView:
    """Return one side as it may be seen."""
    prediction: Prediction = getattr(played, side)
    told = getattr(played.story, side)
    shown = played.story.steps.shown
    step = step_of(played.story, shown[position.step])
    seen = position.step + position.revealed
    stage = shown[seen - 1] if seen else None
    clamped = stage in ("clamped", "ridden")
    before = shown[position.step - 1] if position.step else None
    now = stage if position.revealed else None
    own, other = (played.told[name] for name in (_SIDES if side == "left" else _SIDES[::-1]))
    answer = answer_of(step, own, other, before, now) if now and _is_asked(step, side) else None
    terms, old = _terms(prediction, stage), _terms(prediction, before if position.revealed else stage)
    window = prediction.window
    known = list_known(prediction, told)
    return SideView(
        side=side,
        caption=told.caption.strip(),
        place=told.place,
        stage=stage,
        terms=terms,
        new=tuple(name for name, _ in terms if name not in dict(old)),
        lead=prediction.scenario.axle.lead_per_radian,
        readings=_readings(prediction, stage, told.place) if stage else None,
        known=tuple(each for each in known if STAGES.index(each.since) <= STAGES.index(stage or "contact")),
        assumed=_assumed(own, stage) if stage else None,
        good=(window.tight_edge, window.loose_edge) if clamped and window.width > 0 else None,
        answer=answer,
        unsafe=prediction.verdict.unsafe if clamped else (),
    )


def _terms(prediction: Prediction, upto: str | None) -> StageTerms:
    """Return the terms of the stages up to one of them, of none where that is None."""
    names = STAGES[: STAGES.index(upto) + 1] if upto else ()
    return tuple((name, prediction.stages[name].terms) for name in names)


def _assumed(told: Told, name: str) -> tuple[float, float] | None:
    """Return the end plays between which a side may lie at a stage, for all that is known of it [m]."""
    if told.prediction.joint.runs_in and name not in ("contact", "backed_off"):
        return None  # the hubs drawn are of a cone that is held
    play = told.prediction.stages[name].end_play
    low, high = assumed_ends(told.drawn, {name: play}, told.prediction.window)[name]
    return play + low, play + high


def _readings(prediction: Prediction, name: str, place: Place) -> StageReadings:
    """Return what a stage has come to."""
    stage: StageResult = prediction.stages[name]
    limits = prediction.scenario.limits
    rows = (stage.solution.left.ball_load, stage.solution.right.ball_load)
    play = play_at(place, stage)
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
