"""The result of an exercise: where it ended, where it went wrong, and one hint."""

import streamlit as st

from conemodel.base.plain_text import for_html
from conemodel.base.table import Words, table_of_words
from conemodel.show.formatting import degrees
from conemodel.show.practice.charts import hub_rows
from conemodel.show.waterfall.screen import waterfall_table
from conemodel.tasks.headline import DO_NOT_RIDE
from conemodel.tasks.practice.actions.cone import AT_TOUCH
from conemodel.tasks.practice.actions.judge import line_words
from conemodel.tasks.practice.criteria import touch_within
from conemodel.tasks.practice.marking import ExerciseMark, HubMark
from conemodel.tasks.practice.needed import list_needed
from conemodel.tasks.practice.outcome import state_as_it_came
from conemodel.ui.frame import table
from conemodel.ui.practice.log import show_log
from conemodel.ui.practice.replay import show_replay
from conemodel.ui.practice.session import Sitting

RESULT = "cm-result"
"""Where the verdict stands."""

WRONG_IN = {
    "touch": "setting the cone",
    "slack": "thread slack at the locknut",
    "drift": "the cone turning in as it was locked",
    "clamp": "what the clamp takes up",
    "not checked": "the checks before the last word",
    "judged": "the judgement",
    "none": "nowhere",
}
"""Stages of error in words."""

NO_TIGHT_AS_RIGHT = (
    "a tight hub was called right, and none may be: it would be ridden until its tracks are spoilt"
)


def show_verdict(sitting: Sitting) -> None:
    """Draw the mark of an exercise that is done: what must never be first, whether it passed, one hint, the replay."""
    marked = sitting.marked
    if marked is None:
        return
    with st.container(border=True, key=RESULT):
        if marked.critical:
            reasons = "; ".join(dict.fromkeys(marked.critical))
            st.html(f'<div class="cm-stop" role="alert">Never ride it like this: {for_html(reasons)}.</div>')
        sign = "✓" if marked.passed else "→"
        st.html(
            '<p class="cm-verdict cm-landing" role="status" tabindex="-1">'
            f'<span class="cm-state"><span aria-hidden="true">{sign}</span> {marked.verdict}</span>'
            f'<span class="cm-turn">{for_html(_in_short(sitting))}</span></p>'
        )
        if marked.hint:
            st.markdown(f"**Hint:** {marked.hint}")
        if not marked.passed and not marked.critical:
            st.markdown(f"**It went wrong in:** {WRONG_IN[marked.stage]}.")
        if marked.tight_as_right:
            st.markdown(f"**Rule broken:** {NO_TIGHT_AS_RIGHT}.")
        st.markdown(_economy(sitting))
    show_replay(sitting.stand.name, sitting.stand.bench, marked)


def _in_short(sitting: Sitting) -> str:
    marked = sitting.marked
    if marked is None:
        return ""
    if len(marked.hubs) > 1:
        return f"{marked.right} of {len(marked.hubs)} right; {marked.needed} are needed"
    return _state_words(marked.hubs[0])


def _state_words(hub: HubMark) -> str:
    """Return what a hub was in short: that it is unsafe, for reasons said apart, or all there is to be said of it."""
    if hub.headline.question == "safe":
        return DO_NOT_RIDE
    return "; ".join(f"{answer.words[:1].lower()}{answer.words[1:]}" for answer in hub.headline.answers)


def _economy(sitting: Sitting) -> str:
    marked, exercise = sitting.marked, sitting.exercise
    if marked is None:
        return ""
    if exercise.kind == "name":
        if exercise.questions != ("name",):
            return ""
        missed = {
            "Called right but not right": marked.false_right,
            "Right but called something else": marked.false_wrong,
        }
        return " ".join([*(f"{what}: {hubs}." for what, hubs in missed.items() if hubs), _how_sure(sitting)])
    if exercise.kind == "touch":
        return f"Moves of the cone: {marked.moves}."
    most = f" (of {exercise.most_locks} allowed)" if exercise.most_locks is not None else ""
    often = "once" if marked.locks == 1 else f"{marked.locks} times" if marked.locks else "never"
    return f"Locknut tightened: {often}{most}; moves of the cone: {marked.moves}."


def _how_sure(sitting: Sitting) -> str:
    """Return how often what was said surely, fairly surely or by guess was so."""
    hubs = sitting.stand.bench.hubs
    counts: dict[str, list[bool]] = {}
    for hub in sitting.marked.hubs if sitting.marked else ():
        if judged := hubs[hub.hub].judged:
            true = state_as_it_came(sitting.stand.bench.hidden[hub.hub]) == hub.said
            counts.setdefault(judged[1] or "not asked", []).append(true)
    said = (f"{sure}: right {sum(true)} of {len(true)} times" for sure, true in sorted(counts.items()))
    return f"How sure you were, and how often it was right: {'; '.join(said)}." if counts else ""


def show_details(sitting: Sitting) -> None:
    """Draw each hub: one line for each, then the one chosen in full."""
    marked = sitting.marked
    if marked is None:
        return
    number = 0
    if len(marked.hubs) > 1:
        lines = (_row_of(sitting, hub) for hub in marked.hubs)
        heads = ("Hub", "Truth", "You", "Result")
        table(table_of_words("Every hub of this exercise", heads, lines, words=False))
        if sitting.exercise.kind != "touch":
            number = int(
                st.selectbox(
                    "Look at hub", range(len(marked.hubs)), format_func=lambda n: str(n + 1), key="marked_hub"
                )
            )
    left, right = st.columns([3, 2], gap="large")
    with left:
        _waterfall(sitting, marked.hubs[number])
    with right:
        _needed(sitting, marked)
        with st.expander("Everything you did and felt"):
            show_log(sitting.stand)


def _row_of(sitting: Sitting, hub: HubMark) -> Words:
    """Return one hub in words: which, what was true, what was said or done, and whether that was right."""
    bench, exercise = sitting.stand.bench, sitting.exercise
    name, words = str(hub.hub + 1), _state_words(hub)
    if exercise.kind == "touch":
        return name, "first touch", words, "right" if hub.passed else "off"
    if exercise.kind == "name":
        judged = bench.hubs[hub.hub].judged
        said = bench.hubs[hub.hub].answer(exercise.questions[0]) or "nothing"
        said = (
            f"{line_words(judged[0])} ({judged[1]})" if judged and exercise.questions[0] == "name" else said
        )
        return name, words.removeprefix("it was: "), said, "right" if hub.passed else "wrong"
    said = "refused" if bench.hubs[hub.hub].done == "refuse" else "done"
    return name, words, said, "right" if hub.passed else f"wrong: {WRONG_IN[hub.stage]}"


def _waterfall(sitting: Sitting, hub: HubMark) -> None:
    if sitting.exercise.kind == "touch":
        st.markdown(
            f"First touch is where the balls just meet both tracks: turned in to there the cone turns freely, there "
            f"{AT_TOUCH}, and past it the effort climbs. Every setting is counted from there. Within "
            f"{degrees(touch_within(sitting.exercise))} of it, short or past, counts as right."
        )
        return
    lead = sitting.stand.bench.hidden[hub.hub].scenario.axle.lead_per_radian
    st.html(waterfall_table(hub_rows(hub.terms, lead=lead), window=hub.window, lead=lead))


def _needed(sitting: Sitting, marked: ExerciseMark) -> None:
    """Draw what had to be on all hubs together; whether to refuse one only where that is asked."""
    left_out = None if "refuse" in sitting.exercise.questions else "refused"
    lines = [(needed.label, needed.words) for needed in list_needed(marked, left_out=left_out)]
    if not lines:
        return
    table(table_of_words("What was needed", ("What was needed", "Done?"), lines, words=False))
