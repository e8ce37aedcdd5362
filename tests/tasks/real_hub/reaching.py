"""How far measuring gets on hubs of another make, and setting a hub without it.

``python -m tests.tasks.real_hub.reaching --write`` keeps it for the page.
"""

import json
from collections.abc import Sequence
from dataclasses import asdict

import click
import numpy as np

from conemodel.base.units import MINUTE
from conemodel.parts.measured_hub import ReadBy
from conemodel.parts.scenario import Scenario
from conemodel.tasks.real_hub.reached import KEPT, Reached, Unmeasured
from conemodel.tasks.setting.outlook import outlook_of
from tests.tasks.real_hub.bench_of_its_own import LEAD, draw_hub
from tests.tasks.real_hub.marked_bench import DIAL, TURN, Bench, good_range
from tests.tasks.real_hub.measuring import GAUGES, REAR, SEED, TRUTHS, Course, measure_many

FEELER = 15e-6
"""Furthest error of a slack that was taken by feeler [m]."""


def reached_by(gauge: ReadBy, courses: Sequence[Course]) -> Reached:
    """Return what some courses reached."""
    answered = [course for course in courses if course.said is not None]
    tight = [course.ends[0] < good_range(course.hub)[0] for course in answered]
    return Reached(
        read_by=gauge,
        hubs=len(courses),
        answered=len(answered) / len(courses),
        readings=float(np.mean([course.readings for course in answered])),
        first=float(np.mean([course.right(0) for course in courses])),
        second=float(np.mean([course.right(1) for course in courses])),
        promised=float(np.mean([course.promised for course in answered])),
        tight=float(np.mean(tight)),
        slack_error=float(np.quantile([course.slack_off() for course in answered], 0.8)),
        covered={name: float(np.mean([course.held(name) for course in answered])) for name in TRUTHS},
    )


def unmeasured(hubs: int) -> Unmeasured:
    """Return how often a hub is right that was set without measuring it, its cone turned once from finger contact."""
    usual, quarter = _aim(REAR), MINUTE.to_si(15) * LEAD
    known = REAR.replace(axle=REAR.axle.replace(thread_clearance=0.15e-3))
    right: dict[str, list[bool]] = {"fixed": [], "quarter": [], "feeler": []}
    for number in range(hubs):
        dice = np.random.default_rng((SEED, number))
        hub = draw_hub(dice)
        felt = hub.slack + dice.uniform(-FEELER, FEELER)
        moved = {"fixed": usual, "quarter": quarter, "feeler": _aim(known) + felt - known.axle.backlash}
        tight, loose = good_range(hub)
        for name, length in moved.items():
            bench = Bench(hub=hub, gauge=DIAL, dice=dice, at=length / LEAD + dice.uniform(-TURN, TURN))
            bench.lock()
            bench.close()
            right[name].append(bool(tight <= bench.end_play <= loose))
    return Unmeasured(hubs=hubs, **{name: float(np.mean(each)) for name, each in right.items()})


def _aim(scenario: Scenario) -> float:
    """Return where the program would set a cone that nobody measured, out from finger contact [m]."""
    return outlook_of(scenario).aim.moved


@click.command()
@click.option("--hubs", default=300, show_default=True, help="how many hubs by dial along the axle")
@click.option("--others", default=100, show_default=True, help="how many by each other gauge")
@click.option("--write", is_flag=True, help="keep it for the page")
def main(hubs: int, others: int, write: bool) -> None:
    """Print what is reached by each gauge, and without measuring."""
    found = [asdict(reached_by(gauge, measure_many(gauge, hubs if gauge == "dial along the axle" else others)))
             for gauge in GAUGES]  # fmt: skip
    text = json.dumps(
        {"measured": found, "unmeasured": asdict(unmeasured(hubs))}, indent=1, ensure_ascii=False
    )
    click.echo(text)
    if write:
        KEPT.write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
