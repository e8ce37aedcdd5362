"""What nobody measures on a hub: for each such quantity one range, one usual value, one reason and one word.

Whatever assumes one takes it from here: the ranges a turn is advised over (`Assumed`), what is believed before a check
(`Beliefs`), a population's spreads, what an exercise draws from, and the usual values of parts that leave them out.
A file may still give its own; where the program itself departs, `with_range` says why. What only one of these assumes,
the chance of a bent axle for one, stands there.
"""

from dataclasses import replace

from conemodel.base.units import DEG, KELVIN, MM, MRAD, N_PER_MM, NEWTON, NEWTON_METRE, NEWTON_MM, ONE, UM
from conemodel.parts.distributions import Unknown

CLAMP_FORCE = Unknown(
    name="clamp_force",
    words="clamp force",
    unit=NEWTON,
    low=3000.0,
    usual=5000.0,
    high=8000.0,
    because="no published measurement was found; it must hold the wheel and must not yield the rod",
)
NUT_FORCE = Unknown(
    name="nut_force",
    words="clamp force of axle nuts",
    unit=NEWTON,
    low=9000.0,
    usual=15000.0,
    high=20000.0,
    because="axle nuts at 25 to 40 N·m; a guess",
)
THRU_AXLE_FORCE = replace(
    CLAMP_FORCE,
    name="thru_axle_force",
    words="clamp force of a thru-axle",
    because="taken like a quick release; a guess",
)
GROOVE = Unknown(
    name="conformity",
    words="groove radius",
    unit=ONE,
    low=0.54,
    usual=0.56,
    high=0.60,
    because="no maker publishes the groove radius of a turned or pressed race; a guess",
)
THREAD_FIT = Unknown(
    name="thread_fit",
    words="thread slack",
    unit=ONE,
    low=0.0,
    usual=0.5,
    high=1.0,
    shape="bell",
    because="0 and 1 are the tightest and loosest the tolerance classes allow together; where a maker stays in them "
    "is a guess",
)
THREAD_SLACK = Unknown(
    name="thread_slack",
    words="slack of a thread of unknown classes",
    unit=MM,
    low=0.015,
    usual=0.09,
    high=0.166,
    because="what 6g in 6H allows an M10 x 1 thread; for threads whose classes are not known a guess",
)
CORE_SHARE = Unknown(
    name="thread_give",
    words="give of the threads",
    unit=ONE,
    low=0.0,
    usual=0.4,
    high=1.0,
    shape="even",
    because="how much of the stretch in an engaged thread moves the cone is not known; the bolt standard gives both "
    "parts",
)
THREAD_BRIDGING = Unknown(
    name="thread_bridging",
    words="how the clamp enters the cones' threads",
    unit=ONE,
    low=0.0,
    usual=0.5,
    high=1.0,
    shape="even",
    because="0: the axle shortens over its thread's root, right up to the middles of the cones' threads; 1: over the "
    "wider stress area, and what lies in a cone's thread is bridged by the cone; the truth lies between, where is a "
    "guess, and the middle is taken",
)
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
KEY_CLEARANCE = Unknown(
    name="key_clearance",
    words="give of the washer's key",
    unit=DEG,
    low=3.0,
    usual=4.0,
    high=5.0,
    shape="even",
    because="a key of that clearance lets the cone turn until it meets the tab, and always that far; a guess",
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
FRICTION = Unknown(
    name="friction",
    words="friction in the locknut's thread and face",
    unit=ONE,
    low=0.08,
    usual=0.12,
    high=0.18,
    shape="bell",
    because="oiled steel in the tables for bolts; from memory",
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
    because="a gauge of 0.01 mm read on a clamped axle pushed both ways; a guess",
)
CONE_TILT = Unknown(
    name="cone_tilt",
    words="tilt of a cone on a bent axle",
    unit=MRAD,
    low=1.5,
    usual=3.0,
    high=5.0,
    because="a bend that still goes together; a guess",
)
DENT_DEPTH = Unknown(
    name="dent_depth",
    words="depth of a dent",
    unit=UM,
    low=1.0,
    usual=2.0,
    high=4.0,
    because="from what fingers just find to what anybody hears; a guess",
)
CUP_FOLLOW = Unknown(
    name="cup_follow",
    words="how far a pressed cup follows its growing shell",
    unit=ONE,
    low=0.0,
    usual=0.35,
    high=1.0,
    because="thick rings pressed together give 0.26 to 0.48 for the shells drawn here; 0 once the fit is loose, 1 for "
    "a thin cup; nobody gives the sizes",
)
SHELL_WARMING = Unknown(
    name="shell_warming",
    words="warmth of the shell beside a disc brake",
    unit=KELVIN,
    low=0.0,
    usual=20.0,
    high=60.0,
    because="from a cold ride to a long descent, the axle not yet warm; a guess",
)
DROPOUT_GIVE = Unknown(
    name="dropout_give",
    words="turning of a dropout per moment",
    unit=ONE,
    low=0.0,
    usual=1e-4,
    high=2.5e-4,
    because="rad per N m: from a rigid frame to stays of 400 mm that spread by 40 N/mm; a guess",
)
ENDS_STIFFENED = Unknown(
    name="ends_stiffened",
    words="stiffness of the stack against bending",
    unit=ONE,
    low=0.0,
    usual=0.5,
    high=1.0,
    because="0 for a bare axle, 1 for locknut, washers and cone that hold it as one sleeve; a guess between",
)
WHEEL_STIFFNESS = Unknown(
    name="wheel_stiffness",
    words="sideways stiffness of the wheel",
    unit=N_PER_MM,
    low=40.0,
    usual=60.0,
    high=100.0,
    because="spoked wheels pushed sideways at the rim; a guess",
)
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
ODD_BALL = Unknown(
    name="oversize",
    words="how much larger an odd ball is",
    unit=UM,
    low=12.0,
    usual=16.0,
    high=20.0,
    because="a ball of another lot or wear; a guess, enough to be found by feel",
)
PROUD_END = Unknown(
    name="proud_by",
    words="how far a proud axle end stands out of its dropout",
    unit=MM,
    low=0.2,
    usual=0.6,
    high=1.0,
    because="up to a washer that was left out; a guess",
)

UNKNOWNS = tuple(value for value in list(globals().values()) if isinstance(value, Unknown))
"""Every entry above, in order."""
