"""A hand over its sittings: a chart of the threshold with its interval, and a table with everything."""

from collections.abc import Callable, Iterator, Sequence

from conemodel.base.table import Column, Table
from conemodel.base.units import DEG, Unit
from conemodel.show.charts.vega_lite import Spec, chart, curve, dot, on_scale, title, tone, tooltip
from conemodel.show.hand.wording import bias_words, threshold_range_words, threshold_words
from conemodel.tasks.hand.estimate import Interval
from conemodel.tasks.hand.measured_hand import MeasuredHand

HEIGHT = 260
"""Height of the chart [px]."""


def day_of(hand: MeasuredHand) -> str:
    """Return when a sitting was begun, to the minute."""
    return hand.begun_at[:16].replace("T", " ")


def over_time_chart(hands: Sequence[MeasuredHand]) -> Spec:
    """Return the thresholds of sittings of one kind, at least one, in order, as Vega-Lite."""
    unit = hands[0].kind.unit
    rows = [
        {
            "number": place,
            "threshold": unit.from_si(hand.threshold.value),
            "low": unit.from_si(hand.threshold.low),
            "high": unit.from_si(hand.threshold.high),
            "when": day_of(hand),
            "words": threshold_words(hand),
            "range": threshold_range_words(hand),
        }
        for place, hand in enumerate(hands, start=1)
    ]
    x = on_scale(0.5, len(rows) + 0.5, "sitting", tickMinStep=1, format="d")("number")
    y = on_scale(0.0, 1.1 * max(float(str(row["high"])) for row in rows), unit.symbol)
    spans = {
        "mark": {"type": "rule", "color": tone("ink"), "strokeWidth": 2},
        "encoding": {"x": x, "y": y("low"), "y2": {"field": "high"}},
    }
    points = dot(x, y("threshold"), size=130)
    points["encoding"]["tooltip"] = tooltip(("when", "when"), ("words", "found"), ("range", "range"))
    heading = title("The least difference you tell", 12)
    layers = [curve(x, y("threshold"), colour="rule", width=1), spans, points]
    return chart(layers, rows=rows, height=HEIGHT, heading=heading)


def alt_text_over_time(hands: Sequence[MeasuredHand]) -> str:
    """Return the chart in words."""
    said = (
        f"{place}: {threshold_words(hand)}, {threshold_range_words(hand)}."
        for place, hand in enumerate(hands, 1)
    )
    return "The least difference told, sitting by sitting. " + " ".join(said)


def list_hands(hands: Sequence[MeasuredHand]) -> Table[MeasuredHand]:
    """Return the table of sittings of one kind, at least one, for a page and as CSV."""
    unit = hands[0].kind.unit
    columns: tuple[Column[MeasuredHand], ...] = (
        Column(lambda hand: hand.begun_at, key="begun_at"),
        Column(day_of, page="Begun (UTC)"),
        Column(threshold_words, page="Threshold"),
        Column(threshold_range_words, page="Range"),
        Column(bias_words, page="Bias"),
        *_columns("threshold", unit, lambda hand: hand.threshold),
        *_columns("threshold_turn", DEG, lambda hand: hand.threshold_turn),
        *_columns("bias", unit, lambda hand: hand.bias),
        *_columns("bias_turn", DEG, lambda hand: hand.bias_turn),
        Column(lambda hand: hand.pairs, key="pairs"),
        Column(lambda hand: hand.right, key="right"),
    )
    return Table(columns, hands, caption="Every finished sitting so far", words=True)


def _columns(
    name: str, unit: Unit, interval: Callable[[MeasuredHand], Interval]
) -> Iterator[Column[MeasuredHand]]:
    """Yield the three columns of an interval, for CSV."""
    ends: tuple[tuple[str, Callable[[Interval], float]], ...] = (
        ("", lambda found: found.value),
        ("_low", lambda found: found.low),
        ("_high", lambda found: found.high),
    )
    for end, read in ends:
        yield Column(_reader(interval, read), unit, f"{name}{end}_{unit.suffix}", digits=".4g")


def _reader(
    interval: Callable[[MeasuredHand], Interval], read: Callable[[Interval], float]
) -> Callable[[MeasuredHand], float]:
    return lambda hand: read(interval(hand))
