"""What is said and asked of play at each place: where the gauge stands, how hard to push, what would settle it."""

from collections.abc import Iterator
from typing import Literal, get_args

from conemodel.parts.felt_play import PLAY_WORDS
from conemodel.parts.readings import Instrument
from conemodel.tasks.diagnosis.readings.reading import NumberField, WordField

PlayPlace = Literal["rim", "axle_end", "axle_along"]
"""Where play is read."""

SETTLE = {
    "rim": "Take it again, and the play at the axle end as well: what the rim has and the axle has not is not the "
    "bearing's",
    "axle_end": "Take it again, and the play at the rim as well",
    "axle_along": "Take it again, the gauge's foot on the hub's shell or the frame, and the play at the rim as well",
}
"""What to do where a play contradicts the other readings, by place."""

PLACE_WORDS = {"rim": "at the rim", "axle_end": "at the axle end", "axle_along": "along the axle"}
"""Places in words."""

HINTS = {
    "rim": "The gauge's tip square to the rim near three o'clock; its foot on the stay or the fork blade beside it, "
    "or, the wheel out, on the bench that holds the axle. Push and pull there with about 2 N, the weight of 200 g, the "
    "same each way: what is pushed harder bends spokes and reads as play.",
    "axle_end": "Axle in the fingers, rocked up and down against the shell; the tip square to the axle at its end.",
    "axle_along": "The gauge's foot on the shell (clamp open) or its tip on the shell and its foot on the frame (clamp "
    "closed); push axle or shell straight along the axle, to and fro. The wheel does not give that way.",
}
"""Where the gauge stands and how hard to push, by place."""

PUSH_HINT = "How hard the rim was pushed each way: read off a spring balance, or 1 N for every 100 g hung on a thread."
HARD_HINT = (
    "The same once more under a push some three times as hard, as 2 N and 6 N: what is read more is the wheel that "
    "gives, and is taken off."
)


def fields_of(key: str, place: PlayPlace) -> Iterator[NumberField | WordField]:
    """Yield what is asked for of a play, the most needed first."""
    yield NumberField(
        name=f"{key}.play",
        uncertainty=f"{key}.uncertainty",
        step=0.05,
        usual="usual for it",
        hint=HINTS[place],
    )
    if place == "rim":
        yield NumberField(name=f"{key}.push", step=0.5, form="%.1f", usual="not known", hint=PUSH_HINT)
        yield NumberField(name=f"{key}.play_hard", step=0.05, hint=HARD_HINT)
        yield NumberField(name=f"{key}.push_hard", step=0.5, form="%.1f", usual="not known")
    if place != "axle_along":
        yield WordField(
            name=f"{key}.by", label="measured with", words=get_args(Instrument), default="dial gauge"
        )
    if place == "axle_end":
        yield WordField(name=f"{key}.hand", label="or by hand", words=PLAY_WORDS)
