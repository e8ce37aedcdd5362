"""Who: which wheel this is, and what there is on it, so that steps that do not apply are absent."""

from conemodel.parts.clamp_kinds import CLAMP_KINDS
from conemodel.tasks.job_card.step import Choice, Text, when

FRONT, REAR = "front", "rear"
DISC = "disc"
FREEHUB = "freehub"

rear = when("wheel", REAR)
front = when("wheel", FRONT)

STEPS = (
    Text(name="tag", words="Tag number", longest=20),
    Choice(name="wheel", words="Wheel", choices=(FRONT, REAR)),
    Choice(name="held_by", words="What holds it in the frame", choices=tuple(CLAMP_KINDS)),
    Choice(name="brake", words="Brake", choices=("rim", DISC, "in the hub")),
    Choice(name="drive", words="Drive", choices=(FREEHUB, "screwed freewheel", "fixed"), applies=rear),
    Text(name="rim_mark", words="How the wheel is known again", optional=True, longest=80),
    Text(name="customer", words="Customer", optional=True, longest=60),
    Text(name="hub", words="The hub, as a file", optional=True, written=True, longest=8000),
)
"""`hub` holds what is known of the hub, as the text of its file; it is not asked but taken from the hub in hand."""
