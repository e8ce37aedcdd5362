"""What is asked before anything is answered, because the wheel may come out or the axle let go if it is so."""

from collections.abc import Sequence

from conemodel.parts.readings import Readings
from conemodel.tasks.diagnosis.fault_list import BLOCKS, FoundFault
from conemodel.tasks.diagnosis.fit import Fit, state_of
from conemodel.tasks.diagnosis.fit_of_ends import DROPOUT_UNKNOWN, HELD_BY, MARGINS
from conemodel.tasks.headline import DO_NOT_RIDE, Answer

MAY_BE_BROKEN = 0.1
"""Chance from which a broken axle is looked for before a worn-out thread, which rocks alike. Assumption."""

LOOK_AT_AXLE = Answer(
    words=f"{DO_NOT_RIDE} before the axle is looked at",
    why="The rim rocks where the bearing does not: a broken axle does that, and so does a worn-out thread.",
    act="Take the wheel out, draw what runs through the axle, pull both ends apart, and look at the roots of its "
    "thread beside the cones. Whole: then see whether the locknut comes up hard.",
    unsafe=True,
)
"""What is said where rim and axle end do not go together and nobody looked at the axle."""


MEASURE_ENDS = f"{DO_NOT_RIDE} before the axle ends are measured again"
"""What is said where an end may stand proud of its dropout, as well as it was measured."""


def asked_first(fits: Sequence[Fit], faults: Sequence[FoundFault], readings: Readings) -> tuple[Answer, ...]:
    """Return what its axle leaves open, most serious first."""
    ends = [
        Answer(words=fit.words, why=fit.sentence, unsafe=fit.unsafe)
        for fit in fits
        if fit.key in (HELD_BY, DROPOUT_UNKNOWN)
    ]
    doubtful = [fit.sentence for fit in fits if fit.key in MARGINS and _is_doubtful(fit)]
    if doubtful:
        ends.append(Answer(words=MEASURE_ENDS, why=" ".join(doubtful), unsafe=True))
    return (*ends, *([LOOK_AT_AXLE] if _may_be_broken(faults, readings) else []))


def _is_doubtful(fit: Fit) -> bool:
    """Return whether an end may stand proud, by how well it was measured: the wheel could come out."""
    return fit.chance is not None and state_of(fit.chance) == "look again"


def _may_be_broken(faults: Sequence[FoundFault], readings: Readings) -> bool:
    """Return whether it most likely rocks on a broken axle or a worn-out thread, and neither was found."""
    rocking = {fault.key: fault for fault in faults if fault.key in ("broken_axle", "worn_thread")}
    if readings.checks.axle_broken is not None or len(rocking) < 2:
        return False
    found = any(fault.found != "likely" for fault in rocking.values())
    together = sum(fault.chance for fault in rocking.values())
    return not found and together > BLOCKS and rocking["broken_axle"].chance >= MAY_BE_BROKEN
