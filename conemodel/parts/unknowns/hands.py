"""What is not measured of the hands that set a cone, and of their tools."""

from conemodel.base.units import DEG, NEWTON, NEWTON_METRE, UM, UM_PER_N
from conemodel.parts.unknowns.unknown import Unknown

FINGER_TORQUE = Unknown(
    name="finger_torque",
    words="pinch of the fingers",
    unit=NEWTON_METRE,
    low=0.05,
    usual=0.1,
    high=0.2,
    because="a guess: a cone spun in by finger until it stops",
)
DRIFT = Unknown(
    name="drift",
    words="turn of the held cone",
    unit=DEG,
    low=2.0,
    usual=3.0,
    high=5.0,
    because="clearance of a cone spanner and the give of the hand; a guess",
)
LOCK_TORQUE = Unknown(
    name="lock_torque",
    words="torque at the locknut",
    unit=NEWTON_METRE,
    low=10.0,
    usual=15.0,
    high=20.0,
    because="a firm hand on a thin spanner is not measured: 120 N on 150 mm is about 18 N·m; a guess",
)
HAND_FORCE = Unknown(
    name="hand_force",
    words="force of the hand at the locknut's spanner",
    unit=NEWTON,
    low=60.0,
    usual=120.0,
    high=170.0,
    because="a light, a firm and a hard hand; on 150 mm they reach below and above the usual torque, so that both can "
    "be learnt; a guess",
)
BACK_OFF_ERROR = Unknown(
    name="back_off_error",
    words="error of the back-off",
    unit=DEG,
    low=-10.0,
    usual=0.0,
    high=10.0,
    shape="bell",
    because="a guess: a practised eye judges a quarter turn within a sixth of it",
)
MARK_ERROR = Unknown(
    name="mark_error",
    words="error of a small turn from a mark",
    unit=DEG,
    low=-4.0,
    usual=0.0,
    high=4.0,
    shape="bell",
    because="a guess: with a line to go by the hand errs less than half as much as by eye",
)
FEELER_ERROR = Unknown(
    name="feeler_error",
    words="error of a feeler",
    unit=UM,
    low=-15.0,
    usual=0.0,
    high=15.0,
    shape="even",
    because="leaves come in steps of some 0.03 mm, read to the nearer one; a guess",
)
DIAL_ERROR = Unknown(
    name="dial_error",
    words="error of a dial gauge",
    unit=UM,
    low=-10.0,
    usual=0.0,
    high=10.0,
    shape="bell",
    because="what a gauge of 0.01 mm may err by within a turn of its pointer (JIS B 7503, quoted, the standard not "
    "seen); read several times on a clamped axle pushed both ways, so that reading adds next to nothing; a guess",
)
DIAL_READING = Unknown(
    name="dial_reading",
    words="error of play read once on a dial gauge",
    unit=UM,
    low=-20.0,
    usual=0.0,
    high=20.0,
    shape="even",
    because="what the gauge errs by, up to 0.01 mm, and as much again for two stops, each read to half a division; "
    "how a hand does it is a guess",
)
SEEN_TURN = Unknown(
    name="seen_turn",
    words="least turn of a cone that an eye tells",
    unit=DEG,
    low=1.0,
    usual=3.0,
    high=6.0,
    because="half a minute on a clock face, 1° with a pen line; a guess",
)
NUT_DRAG = Unknown(
    name="nut_drag",
    words="drag of an axle nut on an unloaded cone",
    unit=DEG,
    low=0.0,
    usual=4.0,
    high=8.0,
    because="a nut that turns on the axle takes along a cone whose lock the clamp has unloaded; how far is a guess",
)
RIM_PUSH = Unknown(
    name="rim_push",
    words="push at the rim while play is measured",
    unit=NEWTON,
    low=0.0,
    usual=2.0,
    high=6.0,
    shape="even",
    because="from a hand that only follows the play to one that feels for its end, the weight of 0 to 600 g; nobody "
    "measures it, so any push is as likely; a guess",
)
AXLE_PUSH_GIVE = Unknown(
    name="axle_push_give",
    words="what a push along the axle adds to the play read there",
    unit=UM_PER_N,
    low=0.03,
    usual=0.15,
    high=0.5,
    because="balls alone give some 0.1 by Hertz under 10 to 30 N, both stops together; the rest is the stand of the "
    "gauge and the hub held in the hand, a guess",
)
