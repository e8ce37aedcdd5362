"""Where the adjustment stands, how sure that is, and what to do next, in a mechanic's words."""

from conemodel.base.units import MM
from conemodel.parts.scenario import Scenario
from conemodel.parts.setting import State
from conemodel.tasks.headline import OFTEN, Answer, of_ten, shares_of_ten
from conemodel.tasks.setting.chances import Chances
from conemodel.tasks.setting.turn import WORTH_IT, Turn
from conemodel.tasks.wording import clock_face_turn, clock_minutes, round_on_clock

STATE_WORDS: dict[State, str] = {"loose": "Loose", "right": "Right", "tight": "Too tight"}
"""The states in the largest type."""

MEASURABLE = "thread_slack"
"""The assumption that a feeler between cone and locknut makes known."""


def adjustment_of(
    scenario: Scenario,
    state: State,
    chances: Chances | None,
    turn: Turn | None,
    *,
    obstacle: Answer | None,
    felt: str,
) -> Answer:
    """Return where the adjustment stands and what to do next.

    Args:
        scenario: what was set.
        state: what it is, were everything as assumed.
        chances: how likely it is each, None where that cannot be told.
        turn: that is advised.
        obstacle: why no turn helps, None where one may.
        felt: what is felt now, in sentences, were everything as assumed.
    """
    if obstacle is not None:
        return Answer(
            words=obstacle.words,
            why=" ".join(part for part in (obstacle.why, felt) if part),
            act=obstacle.act,
        )
    if chances is None or turn is None:
        return Answer(words="Cannot tell", why=felt)
    if chances.named != state:
        felt = f"If all is as assumed: {felt[:1].lower()}{felt[1:]}"
    act, more = _next_step(scenario, chances, turn)
    return Answer(
        words=state_words(chances, turn),
        certainty=certainty_words(chances),
        why=felt,
        act=act,
        more=more,
    )


def is_worth_making(chances: Chances, turn: Turn) -> bool:
    """Tell whether a turn is better than leaving the cone where it is."""
    if chances.named == "right" or turn.small:
        return False
    return turn.right > chances.right + WORTH_IT or chances.tight > turn.tight


def state_words(chances: Chances, turn: Turn) -> str:
    """Return the state for the largest type: named where it may be, else what it may be, or what must be known."""
    if chances.named is not None:
        sure = chances.by_state[chances.named] > OFTEN
        return STATE_WORDS[chances.named] if sure else f"Probably {STATE_WORDS[chances.named].lower()}"
    if len(chances.possible) > 2:
        return f"Cannot tell without the {turn.widest}" if turn.widest else "Cannot tell"
    return " or ".join(STATE_WORDS[state] for state in chances.possible).capitalize()


def certainty_words(chances: Chances) -> str:
    """Return how sure the state is."""
    if chances.named is not None:
        return of_ten(chances.by_state[chances.named])
    return shares_of_ten({STATE_WORDS[state].lower(): chance for state, chance in chances.by_state.items()})


def _next_step(scenario: Scenario, chances: Chances, turn: Turn) -> tuple[str, str]:
    """Return what to do next, and what belongs to it: leave it, turn the cone, or a cautious step felt afterwards."""
    if chances.named == "right":
        return "Leave it.", ""
    measure = f"Or measure the {turn.widest} first." if turn.spreads[0].name == MEASURABLE else ""
    if not is_worth_making(chances, turn):
        rocks = "" if chances.tight > chances.loose else "If it rocks, a little further in. "
        return "Leave it there and feel it clamped.", f"{rocks}{_on_purpose(turn)}{measure}".rstrip()
    verb = "Try" if turn.cautious else "Turn the cone"
    then = ", then feel it clamped again" if turn.cautious else ""
    said = abs(round_on_clock(turn.angle))
    shares = {"loose": turn.loose, "right": turn.right, "too tight": turn.tight}
    ends = f"That leaves it {shares_of_ten(shares)}."
    spanner = scenario.assumed.spanner_length
    travel = f"The end of a {MM.from_si(spanner):.0f} mm spanner moves {MM.from_si(said * spanner):.0f} mm."
    return (
        f"{verb} {clock_face_turn(turn.angle)}.",
        f"Lock it the same way{then}. {ends} {_less_right(chances, turn)}{_on_purpose(turn)}{travel} "
        f"It may need {range_words(turn)}. {measure}".rstrip(),
    )


def _less_right(chances: Chances, turn: Turn) -> str:
    """Return that a turn leaves the hub right less often than it is now; empty where it does not."""
    return (
        "" if turn.right >= chances.right else "It is then right less often, but too tight less often too. "
    )


def _on_purpose(turn: Turn) -> str:
    """Return why a step ends loose more often than tight; empty where it does not."""
    if not turn.cautious or turn.loose <= turn.tight:
        return ""
    return "It errs to the loose side on purpose: play shows and can be taken up, a tight bearing hides it and wears. "


def range_words(turn: Turn) -> str:
    """Return the range of the turn needed as a person says it, with what is to blame for it."""
    low, high = turn.angle_range
    near, far = sorted((low, high), key=abs)
    because = f": the {turn.widest} is not known" if turn.widest else ""
    if clock_minutes(near) == clock_minutes(0.0):
        return f"up to {_way(far)}{because}"
    if low < 0 < high:
        return f"anything from {_way(low)} to {_way(high)}{because}"
    least = clock_minutes(near)
    return f"{least if least.startswith('half') else least.split(' ')[0]} to {_way(far)}{because}"


def _way(angle: float) -> str:
    """Return a turn [rad] in minutes of a clock face with its direction."""
    return f"{clock_minutes(angle)} {'out' if angle > 0 else 'in'}"
