"""What is not measured of races, shell, frame and wheel."""

from conemodel.base.units import KELVIN, MM, MRAD, N_PER_MM, ONE, UM
from conemodel.parts.unknowns.unknown import Unknown

GROOVE = Unknown(
    name="conformity",
    words="groove radius",
    unit=ONE,
    low=0.54,
    usual=0.56,
    high=0.60,
    because="no maker publishes the groove radius of a turned or pressed race; a guess",
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
