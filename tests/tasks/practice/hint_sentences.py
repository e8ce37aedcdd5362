"""Every sentence a hint can be, and what has to be so of the record of acts for it to be said.

Nothing here is shared with what makes the hints: acts come from `attempts`, which keeps what each did; end play and
its edges from `hub_terms`.
"""

import re
from collections.abc import Callable
from math import radians

from conemodel.tasks.practice import actions as a
from conemodel.tasks.practice.hub_terms import window_for
from tests.tasks.practice.attempts import open_end_play
from tests.tasks.practice.hub_record import HubRecord

AGAIN = (
    r"(Draw a pen line, undo it, bring the cone|Trim it) (?P<way>in|out) by "
    r"(?P<minutes>[\d½]+ minutes?|half a minute), to the middle of the good range,( lock it,)? "
    r"and feel it clamped again\."
)
TWIRL = "rocking says none for right and for too tight alike, only a twirl tells"
UNKNOWN = r"It came out right, but you could not know\. "
OUT_OF_FRAME = r"( In the frame that cannot be done: take the wheel out and clamp it on spacers\.)?"
STRIPPED = r"(No setting cures this one: .*)?Strip it and look: .*"

Truth = Callable[[HubRecord, re.Match[str]], bool]


def _turn(told: HubRecord, said: re.Match[str]) -> bool:
    return told.cured_by(said["way"], said["minutes"])


def _said(told: HubRecord, said: re.Match[str], question: str) -> bool:
    word = dict(told.hub.answers).get(question)
    begun = f"You said {word}, but" if word else "You gave no answer."
    if word and question == "name":
        begun = f"You said {word}. It was {told.secret.state}:"
    return question in told.missed and said["begun"] == begun


def _unsafe(told: HubRecord, reason: str) -> bool:
    scenario, hub = told.secret.now(told.hub), told.hub
    proud = (
        max(scenario.stack.left.protrusion, scenario.stack.right.protrusion)
        > scenario.frame.dropout_thickness
    )
    return (
        told.made.bench.exercise.rides
        and {
            "the axle stands proud": proud,
            "the wheel is not clamped": hub.seat != "dropouts" or not hub.closed,
            "the locknut is loose": hub.lock is None,
            "the wheel has play": told.loose,
            "the brake is not connected": not hub.brake_connected,
        }[reason]
    )


def _felt(told: HubRecord, state: str) -> bool:
    """Whether the hub, as it came, is of that state; named ones come locked and clamped."""
    return told.secret.state == state


SIGNS = {
    "grabs in one place, every turn": "bent axle",
    "feels notchy": "dents",
    "feels dry and scratchy": "dry grease",
    "moves more in one position than in another": "odd ball",
}
"""What a hub does by the fault it has; common practice, no source."""

DOES = rf"(?P<does>{'|'.join(SIGNS)}|[^.,]*, so only the adjustment is wrong)"
CURE = r"(?P<cure> [A-Z][a-z ]*: no setting cures that\. Strip it and look: .*)?"


def _shows(told: HubRecord, said: re.Match[str]) -> bool:
    """Whether what a hub is said to do is what its fault does, and it is to be stripped for it."""
    fault = SIGNS.get(said["does"], "none")
    named = f" {fault[:1].upper()}{fault[1:]}: "
    return told.secret.fault == fault and (said["cure"] or " ").startswith(" " if fault == "none" else named)


REASONS = (
    "the axle stands proud|the wheel is not clamped|the locknut is loose|"
    "the wheel has play|the brake is not connected"
)
BEGUN = r"(?P<begun>You said [^:]*, but|You said \w+\. It was \w+:|You gave no answer\.) (?i:"

TRUE: dict[str, Truth] = {
    rf"Before anything else: (?P<why>{REASONS})[^.]*\. {STRIPPED}": lambda t, s: (
        t.incurable and _unsafe(t, s["why"])
    ),
    rf"Before anything else: (?P<why>{REASONS})[^.]*\. .* before it is ridden, .*": lambda t, s: (
        not t.incurable and _unsafe(t, s["why"])
    ),
    STRIPPED: lambda t, _: t.incurable,
    r"First touch, found\. .*": lambda t, _: abs(t.hub.cone) <= radians(10) * t.lead,
    r"You said (?P<said>[^.]*)\. It was (?P<true>[^:.]*)\.": lambda t, s: (
        t.marked.passed and not t.missed and s["said"] == s["true"] in dict(t.hub.answers).values()
    ),
    r"Right, and checked\.": lambda t, _: t.right and bool(t.rocked) and bool(t.twirled) and not t.missed,
    r"The cone was (?P<how>still free|already tight), .* from first touch: turn it (?P<way>in|out) .*": lambda t, s: (
        abs(t.hub.cone) > radians(10) * t.lead
        and (s["how"], s["way"]) == (("still free", "in") if t.hub.cone > 0 else ("already tight", "out"))
    ),
    r"You refused a hub that can be set: .*": lambda t, _: not t.incurable and t.hub.done == "refuse",
    r"You said it was done with the locknut loose: .*": lambda t, _: (
        t.hub.lock is None and t.hub.done == "done"
    ),
    r"It was right as it came, and you moved the cone: .*": lambda t, _: (
        t.secret.start.lock is not None
        and window_for(t.secret, t.secret.start).state(t.framed(t.secret.start)) == "right"
        and any(map(t.moved, t.steps))
        and "left alone" in t.missed
    ),
    rf"It came too tight, twirled stiff, and you left it so\. {AGAIN}": lambda t, s: (
        t.tight and t.untouched and t.stiff and _turn(t, s)
    ),
    rf"It came too tight, and you left it without twirling it clamped: {TWIRL}\.": lambda t, _: (
        t.tight and t.untouched and not t.twirled
    ),
    r"You left the cone free as you locked it, and it went in with the nut: .*": lambda t, _: (
        t.tight
        and not t.last_lock.before.cone_held
        and (t.last_lock.after.lock is not None and t.last_lock.after.lock.turned_in > 0)
    ),
    r"The axle itself turned as you locked it, and .*": lambda t, _: (
        t.tight and "far side" in t.last_lock.told and t.last_lock.before.axle_held != "vice"
    ),
    r"The axle nuts dragged the cone in: .*": lambda t, _: (
        t.tight
        and any(
            open_end_play(t.made, t.number, s.after) < open_end_play(t.made, t.number, s.before)
            for s in t.steps_of(a.CloseClamp)
        )
    ),
    rf"It twirled stiff, clamped, and you said it was done: that is too tight\. {AGAIN}": lambda t, s: (
        t.tight and t.stiff and t.hub.done == "done" and _turn(t, s)
    ),
    rf"You never twirled it clamped after the last move: {TWIRL}\. {AGAIN}": lambda t, s: (
        t.tight and not t.twirled and _turn(t, s)
    ),
    rf"You twirled it before the clamp was closed for the last time: twirl it again\. {AGAIN}": lambda t, s: (
        t.tight and t.steps.index(t.twirled[-1]) < t.steps.index(t.steps_of(a.CloseClamp)[-1]) and _turn(t, s)
    ),
    rf"(?P<came>It came too tight, and you left it so\. )?You twirled it clamped and felt nothing stiff: .* {AGAIN}": (
        lambda t, s: (
            t.tight
            and t.untouched is bool(s["came"])
            and bool(t.twirled)
            and not t.stiff
            and not any(t.steps.index(s) > t.steps.index(t.twirled[-1]) for s in t.steps_of(a.CloseClamp))
            and _turn(t, s)
        )
    ),
    rf"(?P<came>It came loose, and you left it so\. )?You rocked it clamped and felt nothing free: .* {AGAIN}": (
        lambda t, s: (
            t.loose
            and t.untouched is bool(s["came"])
            and any(r.action.grip == "rim" for r in t.rocked)  # type: ignore[attr-defined]
            and not t.free
            and _turn(t, s)
        )
    ),
    rf"It came loose, moved freely clamped, and you left it so\. {AGAIN}": lambda t, s: (
        t.loose and t.untouched and t.free and _turn(t, s)
    ),
    r"It came loose, and you left it without rocking it at the rim, clamped\.": lambda t, _: (
        t.loose and t.untouched and not any(s.action.grip == "rim" for s in t.rocked)  # type: ignore[attr-defined]
    ),
    r"You turned the cone out onto the nut: .* by (?P<minutes>[^,]*), or hold the cone .*": lambda t, s: (
        t.loose
        and any(s.action.technique == "cone turned out" for s in t.steps_of(a.Tighten))  # type: ignore[attr-defined]
        and t.cured_by("in", s["minutes"])
    ),
    rf"It moved freely when you rocked it clamped, and you said it was done\. {AGAIN}": lambda t, s: (
        t.loose and t.free and t.hub.done == "done" and _turn(t, s)
    ),
    rf"You never rocked it clamped after the last move: it has play left\. {AGAIN}": lambda t, s: (
        t.loose and not t.rocked and _turn(t, s)
    ),
    rf"You rocked it only at the axle end, which shows less: rock it at the rim\. {AGAIN}": lambda t, s: (
        t.loose and all(x.action.grip == "axle end" for x in t.rocked) and _turn(t, s)  # type: ignore[attr-defined]
    ),
    rf"{UNKNOWN}You rocked it before the clamp was last closed, not after it: .*": lambda t, _: (
        t.right
        and bool(t.rocked)
        and t.steps.index(t.rocked[-1]) < t.steps.index(t.steps_of(a.CloseClamp)[-1])
    ),
    rf"{UNKNOWN}You rocked it clamped before the last move, not after it: .*": lambda t, _: (
        t.right and not t.rocked and any(s.before.closed for s in t.steps_of(a.Rock))
    ),
    rf"{UNKNOWN}You rocked it only open: .*": lambda t, _: (
        t.right and bool(t.steps_of(a.Rock)) and not any(s.before.closed for s in t.steps_of(a.Rock))
    ),
    rf"{UNKNOWN}You never rocked it clamped: .*": lambda t, _: t.right and not t.steps_of(a.Rock),
    rf"{UNKNOWN}You twirled it less than a full turn: [^.]*\.{OUT_OF_FRAME}": lambda t, _: (
        t.right and not t.twirled and any(s.before.closed for s in t.steps_of(a.Twirl, t.after_move))
    ),
    rf"{UNKNOWN}You twirled it only open: [^.]*\.{OUT_OF_FRAME}": lambda t, _: (
        t.right and not t.twirled and any(not s.before.closed for s in t.steps_of(a.Twirl, t.after_move))
    ),
    rf"{UNKNOWN}You twirled it clamped before the last move, not after it: [^.]*\.{OUT_OF_FRAME}": lambda t, _: (
        t.right and not t.twirled and any(s.before.closed for s in t.steps_of(a.Twirl))
    ),
    rf"{UNKNOWN}You never twirled it clamped: [^.]*\.{OUT_OF_FRAME}": lambda t, _: (
        t.right and not any(s.before.closed for s in t.steps_of(a.Twirl))
    ),
    r"You tightened it (?P<times>\d+) times: .*": lambda t, s: (
        int(s["times"]) > (t.made.bench.exercise.most_locks or 99)
        and int(s["times"]) >= len(t.steps_of(a.Tighten))
    ),
    r"You moved the cone (?P<times>\d+) times: .*": lambda t, s: (
        int(s["times"]) > (t.made.bench.exercise.most_moves or 99)
    ),
    r"You rocked it only clamped\. .*": lambda t, _: (
        bool(t.rocked) and all(s.before.closed for s in t.steps_of(a.Rock)) and "play felt open" in t.missed
    ),
    r"You rocked it open before the last move, and after it only clamped\. .*": lambda t, _: (
        t.right and bool(t.rocked) and all(s.before.closed for s in t.steps_of(a.Rock, t.after_move))
    ),
    r"You did not lock it again: .*": lambda t, _: not t.steps_of(a.Tighten),
    r"You left the cone free as you locked it: .*": lambda t, _: not t.last_lock.before.cone_held,
    r"The cone went in clearly as you locked it: .*": lambda t, _: (
        t.last_lock.before.cone_held and t.hub.lock is not None and t.hub.lock.turned_in >= radians(5)
    ),
    r"You felt it in (?P<where>one position|\d positions) only: .*": lambda t, _: (
        len(t.hub.positions) in (1, 2)
    ),
    r"You never felt it: .*": lambda t, _: not t.steps_of(a.Rock) and not t.twirled,
    r"You drew no pen line: .*": lambda t, _: not t.steps_of(a.Mark),
    r"It took you more than two lockings from the pen line: .*": lambda t, _: (
        len(t.steps_of(a.Tighten, t.steps[t.steps.index(t.steps_of(a.Mark)[-1]) :])) > 2
    ),
    r"You never looked at the axle ends: .*": lambda t, _: not t.saw("protrusion"),
    r"You changed the axle and did not look again: .*": lambda t, _: (
        bool(t.saw("protrusion")) and t.hub.axle_changed
    ),
    r"You never counted the balls: .*": lambda t, _: not t.saw("balls"),
    rf"{BEGUN}rocked clamped it moves freely and then stops: that is play\.)": lambda t, s: (
        _felt(t, "loose") and any(_said(t, s, question) for question in ("name", "flex"))
    ),
    rf"{BEGUN}rocked clamped it springs from the start, so no play, .* not stiff\.)": lambda t, s: (
        _felt(t, "right") and _said(t, s, "name")
    ),
    rf"{BEGUN}rocked clamped it springs from the start, as a right one does, but .* stiff\.)": lambda t, s: (
        _felt(t, "tight") and _said(t, s, "name")
    ),
    rf"{BEGUN}rocked clamped it springs from the start: that is the wheel, not the hub\.)": lambda t, s: (
        not _felt(t, "loose") and _said(t, s, "flex")
    ),
    rf"{BEGUN}the nut pushes the cone in .*)": lambda t, s: _said(t, s, "foretell"),
    rf"{BEGUN}nobody held the cone, .*)": lambda t, s: _said(t, s, "why"),
    rf"{BEGUN}new grease spreads .*)": lambda t, s: _said(t, s, "recheck"),
    rf"You twirled it only open: [^.]*\. This one then {DOES}\.{CURE}": lambda t, s: (
        not t.full_twirls(t.steps) and bool(t.steps_of(a.Twirl)) and _shows(t, s)
    ),
    rf"You twirled it less than a full turn: [^.]*\. This one then {DOES}\.{CURE}": lambda t, s: (
        not t.full_twirls(t.steps) and any(x.before.closed for x in t.steps_of(a.Twirl)) and _shows(t, s)
    ),
    rf"You never twirled it: [^.]*\. This one then {DOES}\.{CURE}": lambda t, s: (
        not t.steps_of(a.Twirl) and _shows(t, s)
    ),
    rf"You (never rocked it open|rocked it open in (one position|two) only): [^.]*\. This one then {DOES}\.{CURE}": (
        lambda t, s: t.places_rocked_open == {"n": 0, "o": 1, "t": 2}[(s[2] or "n")[:1]] and _shows(t, s)
    ),
    rf"{BEGUN}twirled (clamped )?it {DOES}\.{CURE})": lambda t, s: (
        _said(t, s, "fault") and bool(t.steps_of(a.Twirl)) and _shows(t, s)
    ),
    rf"{BEGUN}rocked open it {DOES}\.{CURE})": lambda t, s: (
        _said(t, s, "fault") and t.places_rocked_open >= 3 and _shows(t, s)
    ),
}
"""Every sentence a hint can be, and what must have been so."""
