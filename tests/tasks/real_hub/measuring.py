"""A mechanic who does what the program says at hubs of another make, and where that ends: `marked_bench`."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from conemodel.parts.library import SCENARIOS
from conemodel.parts.measured_hub import Mark, MeasuredHub, ReadBy
from conemodel.parts.real_hub import STATES, State
from conemodel.parts.toml_files import load_scenario
from conemodel.tasks.hand.estimate import Interval
from conemodel.tasks.real_hub.next_reading import Measuring, NextReading, measure_hub
from conemodel.tasks.real_hub.told import QUANTITIES_AT_MARKS
from tests.tasks.real_hub.bench_of_its_own import Hub, draw_hub
from tests.tasks.real_hub.marked_bench import DIAL, RIM_DIAL, RULER, Bench, Gauge, good_range

REAR = load_scenario(SCENARIOS / "touring-rear.toml")
FIELDS = {state: name for name, state in STATES.items()}
GAUGES: dict[ReadBy, Gauge] = {
    "dial along the axle": DIAL,
    "dial at the rim": RIM_DIAL,
    "ruler at the rim": RULER,
}
SEED = 31
MOST_ACTS, MOST_TAKEN_AGAIN = 40, 2

TRUTHS: dict[str, Callable[[Hub], float]] = {
    "slack": lambda hub: hub.slack,
    "clamp_give": lambda hub: hub.clamp_give,
    "contact": lambda hub: -hub.contact,
}


@dataclass
class Course:
    """What came of one hub: what the program knew when it gave its first turn, and the end plays after each [m]."""

    hub: Hub
    said: Measuring | None = None
    readings: int = 0
    ends: tuple[float, ...] = ()

    def right(self, turn: int) -> bool:
        """Tell whether it was right after its first turn, 0, or after the next; a hub left alone stays as it is."""
        if not self.ends:
            return False
        tight, loose = good_range(self.hub)
        return tight <= self.ends[min(turn, len(self.ends) - 1)] <= loose

    def slack_off(self) -> float:
        """Return by how much the slack was missed [m]."""
        return abs(self.known["slack"].value - self.hub.slack)

    def held(self, name: str) -> bool:
        """Tell whether the interval of a quantity held the truth."""
        return self.known[name].low <= TRUTHS[name](self.hub) <= self.known[name].high

    @property
    def promised(self) -> float:
        """Chance of ending right that was said with the first turn, or with leaving it."""
        assert self.said is not None
        assert self.said.turn is not None
        return max(self.said.turn.right, self.said.turn.stands.right)

    @property
    def known(self) -> dict[str, Interval]:
        assert self.said is not None
        return {name: self.said.fitted.interval(each.of) for name, each in QUANTITIES_AT_MARKS.items()}


def follow(hub: Hub, gauge: ReadBy, dice: np.random.Generator, *, next_clamp: float = 1.0) -> Course:
    """Do what the program says until two turns are made, or it says to leave the hub alone.

    `next_clamp` is how hard the lever is closed once the first turn is made, over how hard before.
    """
    bench, found = Bench(hub=hub, gauge=GAUGES[gauge], dice=dice), MeasuredHub(read_by=gauge)
    course, again = Course(hub=hub), 0
    for _ in range(MOST_ACTS):
        measuring = measure_hub(REAR, found)
        step = measuring.next
        if step.what == "start over":
            return course
        again += step.what == "read again"
        if again > MOST_TAKEN_AGAIN:
            return course
        if measuring.doubt:  # every number of these is right: who looks again says so
            found = measuring.doubt.confirmed(found)
            continue
        if step.what in ("turn", "leave"):
            course.said = course.said or measuring
            if step.what == "turn":
                bench.turn(step.turn)
                bench.softer = next_clamp
                bench.lock()
                bench.close()
            course.ends = (*course.ends, bench.end_play)
            if step.what == "leave" or len(course.ends) == 2:
                return course
            bench.clamp = 0.0
            found = found.at_marks((*found.marks, Mark(count=step.count)))
            continue
        found = _read(bench, found, step)
        course.readings += len(course.ends) == 0 and step.what == "read"
    return course


def _read(bench: Bench, found: MeasuredHub, step: NextReading) -> MeasuredHub:
    """Return what was found with the next reading taken, the cone turned to a new mark first where it asks for one."""
    marks = list(found.marks)
    if step.mark >= len(marks):
        bench.turn(step.count - ((marks[-1].count or 0.0) if marks else 0.0))
        marks.append(Mark(count=step.count))
        if step.what == "back off":
            return found.at_marks(tuple(marks))
    _bring(bench, step.state)
    # one number by ruler: under a push that nobody knows
    pushes = found.pushes[: 1 if found.read_by == "ruler at the rim" else 2]
    marks[step.mark] = marks[step.mark].replace(**{FIELDS[step.state]: bench.read(pushes)})
    return found.at_marks(tuple(marks))


def _bring(bench: Bench, state: State) -> None:
    """Lock and clamp the hub, or undo it, as far as a state asks."""
    if state == "nut loose":
        bench.taken = bench.clamp = 0.0
    elif bench.taken == 0.0:
        bench.lock()
    if state == "clamped":
        bench.close()
    elif state == "locked":
        bench.clamp = 0.0


def measure_many(gauge: ReadBy, hubs: int, *, next_clamp: float = 1.0) -> list[Course]:
    """Return what came of some hubs."""
    courses = []
    for number in range(hubs):
        dice = np.random.default_rng((SEED, number))
        courses.append(follow(draw_hub(dice), gauge, dice, next_clamp=next_clamp))
    return courses
