"""What a hand feels, in words: for those who ask for words instead, and for all once they have said what they felt.

The grades are even steps of ratio and know nothing of a good range: which of them is too much is what is to be learnt.
"""

from bisect import bisect

from conemodel.parts.felt_play import Place

PLAY_FROM = {
    "rim": (0.025e-3, 0.055e-3, 0.09e-3, 0.14e-3, 0.23e-3, 0.38e-3),
    "axle end": (0.012e-3, 0.028e-3, 0.045e-3, 0.07e-3, 0.115e-3, 0.19e-3),
}
"""Free play as it is felt from which each grade but the first is said [m]; half at the axle end. Assumption."""

PLAY_GRADES = ("no", "hardly any", "a trace of", "a little", "some", "much", "very much")

DRAG_FROM = (6e-3, 9.5e-3, 15e-3, 24e-3, 38e-3, 60e-3)
"""Torque as it is felt from which each grade but the first is said [N·m]: steps of 1.6. Assumption."""

DRAG_GRADES = (
    "turns at a touch",
    "turns very lightly",
    "turns lightly",
    "turns with some drag",
    "turns heavily",
    "turns very heavily",
    "hardly turns",
)

STOPS = ("it runs on", "it runs on", "it runs on a little", "it runs on a little", *["it stops dead"] * 3)
"""What it does when it is let go, by the grade of its drag."""


def words_for_rocking(place: Place, play: float, *, knocks: bool | None) -> str:
    """Return what a free play of so much [m] feels like; `knocks`: whether a knock is heard, None for a slow hand.

    >>> words_for_rocking("rim", 0.0, knocks=False)
    'no free movement, springy from the start, no knock'
    """
    grade = bisect(PLAY_FROM[place], play)
    then = "then springy" if grade else "springy from the start"
    heard = {None: "", True: ", a knock at each end", False: ", no knock"}[knocks]
    return f"{PLAY_GRADES[grade]} free movement, {then}{heard}"


def words_for_drag(torque: float) -> tuple[str, str]:
    """Return how an axle turns that takes so much torque [N·m], and what it does when it is let go.

    >>> words_for_drag(0.05)
    ('turns very heavily', 'it stops dead')
    """
    grade = bisect(DRAG_FROM, torque)
    return DRAG_GRADES[grade], STOPS[grade]
