"""The words of the bench: what was done, and what hands, eyes and ears answer. Never a number of the hub."""

from math import pi

import numpy as np

from conemodel.base.units import DEG, MM
from conemodel.parts.setting import AxleHeld, ClampSeat, Technique
from conemodel.solve.equilibrium.unloaded import unloaded
from conemodel.solve.stages.terms import cone_arm, pair_of
from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.session import HiddenHub, HubState, clamp_of, end_play_of
from conemodel.tasks.practice.torque_feel import TURN_LIMIT
from conemodel.tasks.practice.widget_data import RockFeel
from conemodel.tasks.wording import CLOCK_MINUTE

AXLE_TURNS = "The axle turns with the cone: nothing has changed. Hold the axle."
PINCHED = "The cone is in as far as fingers take it: the balls are just pinched."
NEW_AXLE = "An axle of the right length is in."
NEW_BALLS = "Both rows have all their balls, new and from one packet."

HELD = {
    "vice": "The axle is in soft jaws in the vice.",
    "far spanners": "Spanners on the far side hold the axle.",
    "nothing": "Nothing holds the axle.",
}
TURNED: dict[Technique, str] = {
    "nut turned": "the nut",
    "cone turned out": "the cone, out onto the nut,",
    "both": "both, against each other,",
}
"""What is turned to lock it."""

ANSWERED = {
    "name": "called {}",
    "flex": "said what moves at the rim: {}",
    "foretell": "said what locking will make it: {}",
    "why": "said why it went tight: {}",
    "fault": "said what is wrong: {}",
    "refuse": "said why it cannot be adjusted: {}",
    "recheck": "said when to look at it again: {}",
}
"""Answers as the log has them, by question."""

GRIPPED: dict[AxleHeld, str] = {
    "vice": "axle put in the vice",
    "far spanners": "spanners put on the far side",
    "nothing": "axle let go",
}
SEATED: dict[ClampSeat | None, str] = {
    None: "The clamp is off.",
    "dropouts": "The wheel is in the frame, the clamp not closed yet.",
    "spacers on locknuts": "Spacers stand on both locknuts, the clamp through them not closed yet.",
    "spacer on axle end": "A spacer stands on the axle end, clear of cone and locknut; not closed yet.",
    "one side in frame": "The far side is in the frame, the wheel outside it; not closed yet.",
}

SHAKE = (
    (0.1e-3, "The cone shakes a trace on its thread."),
    (0.25e-3, "The cone shakes clearly on its thread."),
)
"""Clearance on the thread [m] up to which a loose cone does no more than that in the fingers. Assumption."""

RATTLES = "The cone rattles on its thread."

SEEN_TURN = DEG.to_si(1.5), DEG.to_si(5.0)
"""Turn of the cone at locking that a pen line shows as a little, and as clear [rad]. Assumption."""


def said(action: a.Action) -> str:
    """Return an action as words for the log; its angles are the trainee's own."""
    match action:
        case a.TurnCone(angle):
            return f"cone turned to {minutes(-angle % (2 * pi))} on the clock"
        case a.Trim(angle):
            return f"cone and locknut turned {'out' if angle > 0 else 'in'} together, {minutes(abs(angle))}"
        case a.Tighten(effort, technique):
            return f"locknut tightened, {effort} hand, {TURNED[technique]} turned"
        case a.Rock(grip, brisk):
            return f"rocked at the {grip}{', briskly' if brisk else ''}"
        case a.FitClamp(seat):
            return f"clamp fitted: {seat}" if seat else "clamp taken off"
        case a.Answer(question, word):
            return ANSWERED[question].format(word)
    return _said_plainly(action)


def minutes(angle: float) -> str:
    """Return an angle [rad] as minutes of a clock face, to the half; no exercise speaks of degrees.

    >>> minutes(pi / 2), minutes(0.11)
    ('15 minutes', '1 minute')
    """
    number = round(angle / CLOCK_MINUTE * 2) / 2
    return f"{number:g} minute{'' if number == 1 else 's'}"


def _said_plainly(action: a.Action) -> str:
    match action:
        case a.HoldAxle(by):
            return GRIPPED[by]
        case a.HoldCone(held):
            return "cone held for locking" if held else "cone left free for locking"
        case a.Look(at):
            return f"looked at {at}"
        case a.PutRight(what):
            return f"{what} put right"
        case a.Finish(refuse):
            return "refused" if refuse else "said to be done"
    return _PLAIN[type(action)]


_PLAIN: dict[type, str] = {
    a.ScrewIn: "cone screwed in by finger",
    a.Mark: "marked with a pen",
    a.Undo: "locknut undone",
    a.TurnWheel: "wheel turned a quarter",
    a.TurnAxle: "axle turned a quarter",
    a.Twirl: "axle twirled",
    a.Spin: "wheel spun",
    a.Wiggle: "cone wiggled on its thread",
    a.CloseClamp: "clamp closed",
    a.OpenClamp: "clamp opened",
    a.Take: "another hub",
    a.TakeBack: "last move taken back",
}


def taken(hub: int) -> str:
    """Return what is said when a hub is put on the bench."""
    return f"Hub {hub + 1} is on the bench."


def turned(secret: HiddenHub, hub: HubState, *, stopped: bool) -> str:
    """Return what the hand on the cone says after a turn."""
    if stopped:
        return "The cone binds hard on the balls and goes no further."
    scenario = secret.now(hub)
    ends = np.array([end_play_of(secret, hub)])
    effort = float(unloaded(pair_of(scenario), ends).preload.mean()) * float(cone_arm(scenario))
    if effort < 0.02:
        return "The cone turns freely."
    return "The balls are pinched." if effort < 0.3 * TURN_LIMIT else "The cone binds on the balls."


def tightened(secret: HiddenHub, after: HubState) -> str:
    """Return what is felt and seen at the locknut; the pen line tells how far the cone went with it."""
    lock = after.lock
    if lock is None:
        return "The locknut is loose."
    parts = ["The locknut is tight."]
    if secret.fault == "thread worn out":
        parts = ["The thread gives under the spanner: the locknut never comes up hard."]
    if any(term.key == "far_side" for term in lock.terms):
        parts.append("The axle turned in the far side's locknut.")
    if after.pen:
        turn = -lock.turned_in
        little, clear = SEEN_TURN
        way = "in" if turn < 0 else "out"
        if abs(turn) < little:
            parts.append("The line on the cone has not moved.")
        else:
            how = "clearly" if abs(turn) >= clear else "a little"
            parts.append(f"The line on the cone has moved {way} {how}.")
    return " ".join(parts)


def rocked(hub: HubState, found: RockFeel, *, brisk: bool) -> str:
    """Return what rocking says."""
    where = "clamped" if hub.closed else "not clamped"
    text = found.quick if brisk else found.slow
    return f"At the {found.grip}, {where}: {text}."


def wiggled(secret: HiddenHub, hub: HubState) -> str:
    """Return how the loose cone shakes on its thread."""
    clearance = secret.now(hub).axle.pitch_clearance_range[0]
    for most, text in SHAKE:
        if clearance <= most:
            return text
    return "The cone shakes a lot on its thread." if clearance <= 0.5e-3 else RATTLES


def closed(secret: HiddenHub, hub: HubState) -> str:
    """Return what closing the clamp is like."""
    if secret.now(hub).clamp.kind == "nuts":
        return "The nuts are tight."
    return (
        "The lever closes firmly." if secret.now(hub).clamp.kind == "quick release" else "The axle is tight."
    )


def looked(secret: HiddenHub, hub: HubState, at: str) -> str:
    """Return what the eye sees."""
    scenario = secret.now(hub)
    if at == "balls":
        left, right = (getattr(scenario.hub, side) for side in ("left", "right"))
        size = MM.from_si(left.ball_diameter)
        return f"{left.ball_count} on the left, {right.ball_count} on the right, {size:.2f} mm."
    if at == "lever":
        return "The clamp is closed." if hub.closed else "The clamp is open."
    if at == "brake":
        return "The brake is connected." if hub.brake_connected else "The brake hangs loose."
    proud = clamp_of(scenario, "dropouts", scenario.setting.lock_torque).proud
    if not proud:
        return "The axle ends stand back from the outer faces of the dropouts."
    where = "both sides" if len(proud) == 2 else f"the {proud[0]}"
    return f"On {where} the axle end stands out past the dropout."
