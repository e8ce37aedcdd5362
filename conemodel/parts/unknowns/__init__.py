"""What is not measured on a hub: for each such quantity one range, one usual value, one reason and one word.

Whatever assumes one takes it from here: the ranges a turn is advised over (`Assumed`), what is believed before a check
(`Beliefs`), a population's spreads, what an exercise draws from, and the usual values of parts that leave them out.
A file may still give its own; where the program itself departs, `with_range` says why. What only one of these assumes,
the chance of a bent axle for one, stands there.
"""

from conemodel.parts.unknowns.hands import (
    BACK_OFF_ERROR as BACK_OFF_ERROR,
)
from conemodel.parts.unknowns.hands import (
    DIAL_ERROR as DIAL_ERROR,
)
from conemodel.parts.unknowns.hands import (
    DRIFT as DRIFT,
)
from conemodel.parts.unknowns.hands import (
    FEELER_ERROR as FEELER_ERROR,
)
from conemodel.parts.unknowns.hands import (
    FINGER_TORQUE as FINGER_TORQUE,
)
from conemodel.parts.unknowns.hands import (
    HAND_FORCE as HAND_FORCE,
)
from conemodel.parts.unknowns.hands import (
    LOCK_TORQUE as LOCK_TORQUE,
)
from conemodel.parts.unknowns.hands import (
    MARK_ERROR as MARK_ERROR,
)
from conemodel.parts.unknowns.hands import (
    NUT_DRAG as NUT_DRAG,
)
from conemodel.parts.unknowns.hands import (
    SEEN_TURN as SEEN_TURN,
)
from conemodel.parts.unknowns.hub import (
    CONE_TILT as CONE_TILT,
)
from conemodel.parts.unknowns.hub import (
    CUP_FOLLOW as CUP_FOLLOW,
)
from conemodel.parts.unknowns.hub import (
    DENT_DEPTH as DENT_DEPTH,
)
from conemodel.parts.unknowns.hub import (
    DROPOUT_GIVE as DROPOUT_GIVE,
)
from conemodel.parts.unknowns.hub import (
    ENDS_STIFFENED as ENDS_STIFFENED,
)
from conemodel.parts.unknowns.hub import (
    GROOVE as GROOVE,
)
from conemodel.parts.unknowns.hub import (
    ODD_BALL as ODD_BALL,
)
from conemodel.parts.unknowns.hub import (
    PROUD_END as PROUD_END,
)
from conemodel.parts.unknowns.hub import (
    SHELL_WARMING as SHELL_WARMING,
)
from conemodel.parts.unknowns.hub import (
    WHEEL_STIFFNESS as WHEEL_STIFFNESS,
)
from conemodel.parts.unknowns.joint import (
    CLAMP_FORCE as CLAMP_FORCE,
)
from conemodel.parts.unknowns.joint import (
    CORE_SHARE as CORE_SHARE,
)
from conemodel.parts.unknowns.joint import (
    FRICTION as FRICTION,
)
from conemodel.parts.unknowns.joint import (
    KEY_CLEARANCE as KEY_CLEARANCE,
)
from conemodel.parts.unknowns.joint import (
    NUT_FORCE as NUT_FORCE,
)
from conemodel.parts.unknowns.joint import (
    THREAD_BRIDGING as THREAD_BRIDGING,
)
from conemodel.parts.unknowns.joint import (
    THREAD_FIT as THREAD_FIT,
)
from conemodel.parts.unknowns.joint import (
    THREAD_SLACK as THREAD_SLACK,
)
from conemodel.parts.unknowns.joint import (
    THRU_AXLE_FORCE as THRU_AXLE_FORCE,
)
from conemodel.parts.unknowns.senses import (
    CLEAR_AT_RIM as CLEAR_AT_RIM,
)
from conemodel.parts.unknowns.senses import (
    FELT_AT_AXLE_END as FELT_AT_AXLE_END,
)
from conemodel.parts.unknowns.senses import (
    FELT_AT_RIM as FELT_AT_RIM,
)
from conemodel.parts.unknowns.senses import (
    FELT_RIPPLE as FELT_RIPPLE,
)
from conemodel.parts.unknowns.senses import (
    PRELOAD_TORQUE as PRELOAD_TORQUE,
)

UNKNOWNS = (
    CLAMP_FORCE,
    NUT_FORCE,
    THRU_AXLE_FORCE,
    GROOVE,
    THREAD_FIT,
    THREAD_SLACK,
    CORE_SHARE,
    THREAD_BRIDGING,
    FINGER_TORQUE,
    DRIFT,
    KEY_CLEARANCE,
    LOCK_TORQUE,
    HAND_FORCE,
    FRICTION,
    BACK_OFF_ERROR,
    MARK_ERROR,
    FEELER_ERROR,
    DIAL_ERROR,
    CONE_TILT,
    DENT_DEPTH,
    CUP_FOLLOW,
    SHELL_WARMING,
    DROPOUT_GIVE,
    ENDS_STIFFENED,
    WHEEL_STIFFNESS,
    FELT_AT_RIM,
    CLEAR_AT_RIM,
    FELT_AT_AXLE_END,
    PRELOAD_TORQUE,
    FELT_RIPPLE,
    SEEN_TURN,
    NUT_DRAG,
    ODD_BALL,
    PROUD_END,
)
"""Every one of them, in order."""
