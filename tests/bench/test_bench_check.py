"""An answer within 300 ms: the project's own budget, for a hub never seen before and one with six rounds."""

from conemodel.parts.readings import Play
from conemodel.tasks.diagnosis.assumed_hub import usual_hub
from conemodel.tasks.diagnosis.diagnose import diagnose
from tests.tasks.diagnosis.simulated import readings_of

LOOK = {
    "rim_open": Play(play=0.9e-3),
    "rim_closed": Play(play=0.3e-3),
    "turns_open": "free",
    "turns_closed": "free",
}


def test_one_round(benchmark):
    benchmark.pedantic(diagnose, args=(readings_of(LOOK),), rounds=5, warmup_rounds=1)
    assert benchmark.stats["min"] < 0.3


def test_three_rounds(benchmark):
    later = [
        {"rim_open": Play(play=0.9e-3 - i * 1e-4), "turned_in": 0.05, "turns_closed": "free"} for i in (1, 2)
    ]
    benchmark.pedantic(diagnose, args=(readings_of(LOOK, *later),), rounds=5, warmup_rounds=1)
    assert benchmark.stats["min"] < 0.3


def test_a_hub_never_seen_before(benchmark):
    rear = usual_hub("rear")
    widths = iter(range(100))

    def fresh():
        spacing = 60e-3 + next(widths) * 1e-6
        return (readings_of(LOOK), rear.replace(hub=rear.hub.replace(row_spacing=spacing))), {}

    benchmark.pedantic(diagnose, setup=fresh, rounds=5, warmup_rounds=1)
    assert benchmark.stats["min"] < 0.3
