"""Random job cards for hypothesis, made from the steps' own limits, with foreign text in them."""

from datetime import UTC, datetime

from hypothesis import strategies as st

from conemodel.tasks.job_card.card import Card, Entry, Place, Value
from conemodel.tasks.job_card.step import MOST_ROUNDS, Amount, Choice, Day, Step, Text
from conemodel.tasks.job_card.steps import STEPS
from tests.hostile import HOSTILE

TIMES = st.datetimes(datetime(1970, 1, 1), datetime(2199, 1, 1)).map(
    lambda moment: moment.replace(tzinfo=UTC).isoformat(timespec="seconds")
)
FEW_TIMES = st.sampled_from([f"2026-03-31T14:05:0{second}+00:00" for second in range(3)])
"""So few that answers of two machines fall into one second."""

NAMES = st.sampled_from([None, "Ada", "=1+1", "<b>Zoë</b>", "明 $x$", 'O\'Neil \\ ""'])


def values(step: Step) -> st.SearchStrategy[Value]:
    """Return any answer that a step takes."""
    match step:
        case Choice():
            return st.sampled_from(step.choices)
        case Amount(whole=True):
            return st.integers(int(step.least), int(step.most))
        case Amount():
            return st.floats(step.least, step.most)
        case Day():
            return st.dates().map(str)
        case Text():
            free = st.text(min_size=1, max_size=step.longest) | st.sampled_from(list(HOSTILE.values()))
            return free.map(lambda text: text[: step.longest]).filter(str.strip)
    raise AssertionError(step)


@st.composite
def entries(draw: st.DrawFn, times: st.SearchStrategy[str] = TIMES) -> Entry:
    """Return any answer at any step, taken back now and then."""
    step = draw(st.sampled_from(list(STEPS.values())))
    place = draw(st.sampled_from(step.places(MOST_ROUNDS)))
    value = draw(st.none() | values(step))
    return Entry(at=draw(times), by=draw(NAMES), place=place, value=value)


def cards(times: st.SearchStrategy[str] = TIMES, most: int = 12) -> st.SearchStrategy[Card]:
    """Return any card."""
    histories = st.lists(entries(times), max_size=most).map(tuple)
    ids = st.uuids(version=4).map(lambda drawn: drawn.hex)
    return st.builds(Card, id=ids, begun_at=times, entries=histories)


def entry(step: str, value: Value, *, at: str = "2026-03-31T14:05:00+00:00", where: str = "") -> Entry:
    """Return one answer."""
    return Entry(at=at, by=None, place=Place(step, where), value=value)
