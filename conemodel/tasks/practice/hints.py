"""One useful hint on how a hub ended. It may name numbers: it is given only after the last word."""

from conemodel.base.units import DEG, MM
from conemodel.tasks.practice.error_stage import ErrorStage, part_of
from conemodel.tasks.practice.session import HiddenHub, HubState


def hint_on(
    secret: HiddenHub, hub: HubState, *, stage: ErrorStage, off: float, critical: tuple[str, ...]
) -> str:
    """Return the hint for a hub; `off` is how far outside the good range it ended [m]."""
    if critical:
        return f"Before anything else: {critical[0]}. However right the hub feels, put that right before it is ridden."
    lead = secret.scenario.axle.lead_per_radian
    turn = f"{DEG.from_si(abs(off) / lead):.0f}° of cone"
    size = f"{MM.from_si(abs(part_of(secret, hub, stage))):.2f} mm"
    if off == 0.0:
        return _hint_inside(secret, stage)
    match stage:
        case "slack" if off < 0:
            return f"The locknut took up {size} of thread slack that you did not allow for: it ended {turn} too tight."
        case "slack":
            return f"The cone was backed onto the nut, so no thread slack was taken up: it ended {turn} too loose."
        case "drift":
            return (
                f"The cone turned in by {size} along its thread as you locked it: hold it. {turn} too tight."
            )
        case "clamp" if off < 0:
            return f"The clamp takes up {size}: leave that much play on the bench. It ended {turn} too tight."
        case "clamp":
            return f"You never rocked it clamped: some play is left, {turn} too much."
        case _:
            way, how = ("in", "too loose") if off > 0 else ("out", "too tight")
            return (
                f"It ended {turn} {how}: bring the cone {way} by that from the mark, lock, clamp, feel again."
            )


def touch_hint(secret: HiddenHub, hub: HubState, within: float) -> str:
    """Return the hint for a cone that was to stand at first touch, to `within` [rad]."""
    angle = hub.cone / secret.scenario.axle.lead_per_radian
    if abs(angle) <= within:
        return "First touch, found."
    way, how = ("in", "still free") if angle > 0 else ("out", "already tight")
    return (
        f"The cone was {how}, {DEG.from_si(abs(angle)):.0f}° from first touch: turn it {way} to where it just "
        "stops turning freely."
    )


def _hint_inside(secret: HiddenHub, stage: ErrorStage) -> str:
    """Return the hint for a hub that ended inside the good range."""
    if stage == "touch":
        return "First touch is where the cone stops turning freely, not where it binds."
    if stage == "not checked":
        return (
            "Right, but you could not know: rock it clamped, and twirl it a full turn after the last move, before it "
            "goes in the frame or clamped on spacers."
        )
    return _hint_judged(secret) if stage == "judged" else "Right, and checked."


def _hint_judged(secret: HiddenHub) -> str:
    """Return the hint for a hub that was named wrong, or right at too high a price."""
    if secret.fault not in ("none", "proud axle", "ball missing"):
        return f"This one has a fault no setting cures: {secret.fault}. Turn wheel and axle and feel in several places."
    if secret.state == "tight":
        return "Rocking says none for right and for tight alike: only twirling tells them apart."
    if secret.state == "loose":
        return "Free movement with a stop is play; movement that springs from the start is the wheel."
    return "It was right as it was, or took more moves than it needs: feel first, then turn."
