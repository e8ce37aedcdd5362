"""The bench on screen: the hub from two sides with every hand that an exercise has use for, and what it answered."""

from dataclasses import dataclass
from math import pi
from typing import Any

from conemodel.base.units import DEG
from conemodel.parts.exercise import Exercise
from conemodel.parts.setting import Technique
from conemodel.show.instrument.hand_plates import Gesture
from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.actions.clamp import clamp_word
from conemodel.tasks.practice.actions.locknut import EFFORTS
from conemodel.tasks.practice.actions.obstacles import clamp_on_locknut
from conemodel.tasks.practice.locknut import HAND
from conemodel.tasks.practice.torque_feel import TurnFeel, turn_feel
from conemodel.ui.practice.gestures import drawing_for, rocking, twirling, zones_of
from conemodel.ui.practice.log import last_answer
from conemodel.ui.practice.session import BENCH, Stand
from conemodel.ui.practice.steps import advised_action
from conemodel.ui.widgets.contract_turning import TurnResist
from conemodel.ui.widgets.hand_data import resist_data, rock_data, twirl_data
from conemodel.ui.widgets.whole_bench_mount import Hold, whole_bench

Given = dict[str, Any]

FEELING = ("rim", "twirl")
"""Hands that only feel a hub."""
JUDGING = ("rim", "axle end", "lever", "twirl")
"""Hands of an exercise that only names one."""
ALL = (*JUDGING, "locknut", "turn")
SIDE = ("rim", "axle end", "lever")
"""Hands on the view from the side; the others are on that from its end."""

NUT_TURNS = DEG.to_si(40.0)
"""How far a locknut turns from where it touches to the hardest pull [rad]. Assumption."""
NUT_GIVES = 0.2
"""How far a hand leads its spanner for each e-fold of torque [rad], from a twentieth of the hardest on. Assumption."""

ADVISED: dict[type[a.Action], str] = {a.Tighten: "locknut", a.OpenClamp: "lever", a.CloseClamp: "lever"}
"""The hand that does what is usually next."""

LOCKED = "The locknut is tight against the cone: undo it before the cone can be turned."
NOT_FITTED = "No clamp is fitted: choose below where it sits."


@dataclass(frozen=True, slots=True)
class _Holding:
    """A hand laid on: what it is, what stands on it, its letter."""

    name: str
    words: str
    key: str


HOLDS = (
    _Holding("cone", "Hold the cone", "h"),
    _Holding("vice", "Axle: vice", "v"),
    _Holding("far spanners", "Axle: far-side spanners", "f"),
)


def hands_for(exercise: Exercise) -> tuple[str, ...]:
    """Return the hands an exercise has use for."""
    return {"touch": ("turn",), "name": JUDGING}.get(exercise.kind, ALL)


def work_with(stand: Stand, hands: tuple[str, ...], *, technique: Technique = "nut turned") -> None:
    """Draw the bench with some hands; `technique` is what is turned where the locknut is pulled tight."""
    given = {hand: _GIVEN[hand](stand) | {"set_id": stand.set_of(hand)} for hand in hands}
    if "locknut" in given:
        given["locknut"]["technique"] = technique
    pictures = {}
    if side := {hand: data for hand, data in given.items() if hand in SIDE}:
        pictures["side"] = {"drawing": drawing_for(stand, "side"), "hands": side}
    if end := {hand: data for hand, data in given.items() if hand not in SIDE}:
        pictures["end"] = {"drawing": _from_its_end(stand, "end" if "turn" in end else "twirl"), "hands": end}
    advised = advised_action(stand.bench)
    whole_bench(
        key=stand.key(BENCH),
        pictures=pictures,
        said=last_answer(stand),
        holds=_holds(stand) if "turn" in hands else (),
        advised=ADVISED.get(advised, "") if advised else "",
        set_id=stand.set_of(BENCH),
    )


def _holds(stand: Stand) -> list[Hold]:
    hub = stand.bench.hub
    on = {"cone": hub.cone_held, hub.axle_held: True}
    shown = HOLDS[1:] if stand.bench.exercise.kind == "touch" else HOLDS
    return [Hold(name=h.name, words=h.words, key=h.key, on=on.get(h.name, False)) for h in shown]


def _from_its_end(stand: Stand, view: Gesture) -> Given:
    """Return the view from the end, its cone where it stands on the clock."""
    drawing, found = dict(drawing_for(stand, view)), turn_feel(stand.bench.secret, stand.bench.hub)
    drawing["vars"] = {**drawing["vars"], "angle": DEG.from_si(found.angle - _origin(found))}
    return drawing


def _origin(found: TurnFeel) -> float:
    """Return the cone's angle that stands at twelve: that of the pen line, or whole turns [rad]."""
    return found.mark if found.mark is not None else round(found.angle / (2 * pi)) * 2 * pi


def _rim(stand: Stand) -> Given:
    feel = stand.feel
    return rock_data(**rocking(stand, feel.rim)) if feel.rim else {"barred": feel.why_not.get("rim")}


def _axle_end(stand: Stand) -> Given:
    feel = stand.feel
    if feel.axle_end is None:
        return {"barred": feel.why_not.get("axle end")}
    return rock_data(**rocking(stand, feel.axle_end))


def _twirl(stand: Stand) -> Given:
    feel = stand.feel
    if feel.twirl is None:
        return {"barred": feel.why_not.get("twirl")}
    return twirl_data(**twirling(stand, feel.twirl)) | {"angle": 0.0}


def _turn(stand: Stand) -> Given:
    # that part of `feel_of` alone: where only the cone is turned nothing else is worked out
    hub = stand.bench.hub
    found = turn_feel(stand.bench.secret, hub)
    if not found.free:
        return {"barred": LOCKED}
    resist = TurnResist(angle=found.resist_angle, effort=found.resist_effort, limit=found.limit)
    return {
        "angle": found.angle,
        "origin": _origin(found),
        "reference": "the pen line" if found.mark is not None else "twelve o'clock",
        "pen": hub.pen,
        **resist_data(resist, zones_of(found) if stand.bench.words else ()),
    }


def _locknut(stand: Stand) -> Given:
    hub = stand.bench.hub
    if reason := clamp_on_locknut(hub):
        return {"barred": reason}
    length = stand.bench.secret.now(hub).assumed.spanner_length
    efforts = {effort: HAND[effort] * length for effort in EFFORTS}
    most = 1.05 * max(efforts.values())
    resist = TurnResist(
        angle=(-NUT_TURNS, 0.0, 1.0),
        effort=(1.01 * most, 0.0, 0.0),
        limit=most,
        firm=most / 20,
        give=NUT_GIVES,
    )
    stands = "tight" if hub.lock else "snug" if hub.nut_snug else "loose"
    return {"stands": stands, "efforts": efforts, **resist_data(resist)}


def _lever(stand: Stand) -> Given:
    bench, what = stand.bench, clamp_word(stand.bench)
    now: Given = {"name": what.capitalize(), "closed": bench.hub.closed, "open": "open", "shut": "closed"}
    now["act"] = f"{'Open' if bench.hub.closed else 'Close'} the {what}"
    return now | ({"barred": NOT_FITTED} if bench.hub.seat is None else {})


_GIVEN = {
    "rim": _rim,
    "axle end": _axle_end,
    "lever": _lever,
    "twirl": _twirl,
    "locknut": _locknut,
    "turn": _turn,
}
