"""The work to do, step by step: mark, loosen, turn from where to where, hold, relock, recheck."""

from conemodel.base.units import DEG, NEWTON_METRE
from conemodel.parts.clamp_kinds import ClampKind
from conemodel.parts.scenario import Scenario
from conemodel.tasks.diagnosis.best_turn import Move
from conemodel.tasks.setting.chances import SURE
from conemodel.tasks.wording import CLOCK_MINUTE, direction, round_on_clock, turn_size


def move_words(move: Move, scenario: Scenario, *, measured: bool) -> str:
    """Return how far the turn to make is, with its range and its chances."""
    size = turn_size(move.angle, spanner=scenario.assumed.spanner_length)
    right, tight = (say_chance(chance, measured=measured) for chance in (move.chance, move.tight))
    after = f"right is {right}, too tight {tight}."
    if move.cautious:
        return (
            f"The step is {size}, and stops on the loose side; four times in five the whole turn lies "
            f"{range_words(move)}. After the step, {after}"
        )
    return f"The turn is {size}; four times in five the turn it needs lies {range_words(move)}. Turned by hand, {after}"


def act_words(move: Move) -> str:
    """Return the turn to make in a few words; a cautious step is felt again."""
    size, way = _degrees(move.angle), direction(move.length)
    if move.cautious:
        return f"A cautious step: {size} {way}, then feel it clamped again."
    return f"Turn the cone {way} about {size}."


def measured_first(act: str) -> str:
    """Return what to do about a state that a measurement would tell.

    >>> measured_first("Leave it.")
    'Measure first. Where you cannot: leave it.'
    """
    return f"Measure first. Where you cannot: {act[0].lower()}{act[1:]}"


def range_words(move: Move) -> str:
    """Return the range of the turn needed, each end with its direction where they differ."""
    low, high = move.angle_range
    if low < 0 < high:
        return f"between {_degrees(low)} in and {_degrees(high)} out"
    near, far = sorted((abs(low), abs(high)))
    return f"between {_degrees(near)} and {_degrees(far)} {'out' if low >= 0 else 'in'}"


def percent(chance: float) -> str:
    """Return a chance in whole per cent, never 0 or 100: nothing here is certain.

    >>> percent(0.934), percent(1.0)
    ('93 %', 'over 99 %')
    """
    if chance > 0.99:
        return "over 99 %"
    return "under 1 %" if chance < 0.01 else f"{chance * 100:.0f} %"


def say_chance(chance: float, *, measured: bool) -> str:
    """Return a chance: in per cent once something was measured, from hand words alone in three words.

    >>> say_chance(0.82, measured=True), say_chance(0.82, measured=False), say_chance(0.5, measured=False)
    ('82 %', 'likely', 'a toss-up')
    """
    if measured:
        return percent(chance)
    return "likely" if chance >= SURE else "unlikely" if chance < 1 - SURE else "a toss-up"


def _degrees(angle: float) -> str:
    return f"{DEG.from_si(abs(angle)):.0f}°"


def _line_goes_to(angle: float) -> str:
    """Return where a line at twelve o'clock goes in a turn [rad], clockwise above 0: out is anticlockwise from outside.

    >>> _line_goes_to(0.31), _line_goes_to(-0.16), _line_goes_to(0.01)
    ('minute 3 of a clock face', 'minute 58½ of a clock face', 'half a minute away')
    """
    halves = round(2 * round_on_clock(angle) / CLOCK_MINUTE)
    if not halves:
        return "half a minute away"
    whole, half = divmod(halves % 120, 2)
    return f"minute {whole}{'½' if half else ''} of a clock face"


def _out_and_in(holder: ClampKind | None) -> tuple[str, str]:
    """Return how a wheel is taken out, and how it is fitted and checked again."""
    if holder is None:
        return "Release the wheel and take it out", (
            "Fit the wheel with its weight on the ground, hold it as it is ridden, and check play and turning clamped. "
            "If nuts hold it, they may drag locknut and cone."
        )
    if not holder.through_axle:
        return "Open the nuts and take the wheel out", (
            "Fit the wheel, tighten the nuts, and check play and turning again: the nuts may drag locknut and cone."
        )
    return "Open the clamp and take the wheel out", (
        f"Fit the wheel with its weight on the ground, close the {holder.handle}, and check play and turning clamped."
    )


def steps_for(move: Move, scenario: Scenario, *, holder: ClampKind | None) -> tuple[str, ...]:
    """Return the procedure for a turn of the cone on the adjustable side; `holder` is None where nobody said it."""
    side = scenario.hub.adjustable_side
    far = "right" if side == "left" else "left"
    to = _line_goes_to(abs(move.angle) if move.length < 0 else -abs(move.angle))
    torque = NEWTON_METRE.from_si(scenario.setting.lock_torque)
    first, last = _out_and_in(holder)
    return (
        f"{first}. Work on the {side} (adjustable) side, the axle held in a "
        f"soft-jawed vice by the {far} end; see that cone and locknut of the {far} side are locked.",
        "Draw a pen line across axle, cone and locknut.",
        f"Hold the cone with its spanner and loosen the locknut on the {side}; the cone stays on its line.",
        f"Turn the cone {direction(move.length)}, looking at it from outside, by {_degrees(move.angle)}: "
        f"its line goes from twelve o'clock to {to}; {range_words(move)} "
        "may be needed.",
        f"Hold the cone there and tighten the locknut as hard as before, about {torque:.0f} N·m (a firm hand).",
        last,
        "Write down how far it was turned and what is felt now, and put it in as the next round.",
    )
