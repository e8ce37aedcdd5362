"""What is not measured of threads, locknut and clamp."""

from dataclasses import replace

from conemodel.base.units import DEG, MM, NEWTON, ONE
from conemodel.parts.unknowns.unknown import Unknown

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
MEASURED_FORCE = Unknown(
    name="measured_force",
    words="error of a measured clamp force, as a share of it",
    unit=ONE,
    low=-0.1,
    usual=0.0,
    high=0.1,
    shape="bell",
    because="a load cell or a strained rod, read on one closing and true for the next; a guess",
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
    words="way the clamp enters the cones' threads",
    unit=ONE,
    low=0.0,
    usual=0.5,
    high=1.0,
    shape="even",
    because="0: the axle shortens over its thread's root, right up to the middles of the cones' threads; 1: over the "
    "wider stress area, and what lies in a cone's thread is bridged by the cone; the truth lies between, where is a "
    "guess, and the middle is taken",
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
