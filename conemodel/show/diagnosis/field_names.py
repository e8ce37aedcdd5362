"""What each field of a file of readings is called, on screen and on paper."""

from conemodel.tasks.diagnosis.readings import READINGS

LABELS = {
    "play": "", "size": "", "diameter": "size of the balls", "by": "measured with",
    "uncertainty": "give or take", "hand": "by hand",
    "push": "push each way", "play_hard": "under a harder push", "push_hard": "the harder push each way",
    **{key: reading.label for key, reading in READINGS.items()},
    "turned_in": "turned in", "turned_out": "turned out",
    "ridden": "ridden", "ridden_distance": "how far it was ridden",
    "starting_weight_uncertainty": f"{READINGS['starting_weight'].label}, give or take",
    "balls_left": "balls on the left", "balls_right": "balls on the right", "count": "number",
    "protrusion_left": "axle protrusion on the left", "protrusion_right": "axle protrusion on the right",
    "over_locknut_width": "width over the locknuts", "axle_length": "axle length",
    "dropout_width": "width between the dropouts", "dropout_thickness": "thickness of the dropouts",
    "pitch_diameter": "pitch circle of the balls", "thread_slack": "slack of the cone on its thread",
    "cone_out": "cone out of finger contact", "cone_out_uncertainty": "cone out of finger contact, give or take",
    "found": "", "checks": "", "next": "this round", "name": "what to call this hub", "story": "what is the matter",
}  # fmt: skip
"""What fields are called on screen, piece by piece."""


def label_of(field: str) -> str:
    """Return what a field is called on screen.

    >>> label_of("found.rim_open.play"), label_of("balls_left.count")
    ('Play at the rim, clamp open', 'Balls on the left, number')
    """
    pieces = (LABELS.get(piece, piece.replace("_", " ")) for piece in field.split("."))
    words = ", ".join(piece for piece in pieces if piece)
    return words[:1].upper() + words[1:]
