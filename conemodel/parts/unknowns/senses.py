"""What counts as felt, and as too stiff."""

from conemodel.base.units import MM, NEWTON_MM, ONE
from conemodel.parts.unknowns.unknown import Unknown

FELT_AT_RIM = Unknown(
    name="felt_at_rim",
    words="play just felt at the rim",
    unit=MM,
    low=0.07,
    usual=0.1,
    high=0.14,
    because="no published threshold was found: a trained hand, two thirds of hands within a factor of 1.4; a guess",
)
CLEAR_AT_RIM = Unknown(
    name="clear_at_rim",
    words="play at the rim that anybody feels",
    unit=MM,
    low=0.21,
    usual=0.3,
    high=0.42,
    because="some three times what is just felt; a guess",
)
FELT_AT_AXLE_END = Unknown(
    name="felt_at_axle_end",
    words="play just felt at the axle end",
    unit=MM,
    low=0.035,
    usual=0.05,
    high=0.07,
    because="fingers hold an axle end closer than a hand holds a rim; a guess",
)
PRELOAD_TORQUE = Unknown(
    name="preload_torque",
    words="turning torque from preload that is still good",
    unit=NEWTON_MM,
    low=10.0,
    usual=12.0,
    high=15.0,
    because="a whole hub was measured to take some 30 N·mm at 10 m/s, ridden (Martin 1998); grease, seals and the "
    "rider's load make 12 to 17 of it here, which leaves 13 to 18 for preload; at the upper edge of the load part's "
    "band, some 2.3 times as much, 12 N·mm are 27 to 29, nearly the whole of it; and fingers just tell apart 13 % of "
    "60 N·mm, 8 (Jandura and Srinivasan 1994)",
)
FELT_RIPPLE = Unknown(
    name="felt_ripple",
    words="ripple just felt when turned, as a share of the level",
    unit=ONE,
    low=0.08,
    usual=0.13,
    high=0.208,
    because="the middle from an experiment on telling torques apart, seen as a quotation; two thirds of fingers within "
    "a factor of 1.6, a guess",
)
