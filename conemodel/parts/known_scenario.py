"""The whole hub that follows from what is known of one: every size known stays, the rest is made to fit."""

from collections.abc import Iterable, Iterator
from contextlib import suppress
from functools import lru_cache

from pydantic import Field

from conemodel.base.units import MM
from conemodel.parts.axle import NOT_KNOWN, Axle
from conemodel.parts.bearing import RowGeometry
from conemodel.parts.hub import SIDES, Hub, Side, Stack, Stacks
from conemodel.parts.hub_families import CONTACT_ANGLE, FRONT_BELOW, THREADS, Usual
from conemodel.parts.known_hub import KnownHub, Sizes
from conemodel.parts.mounting import Clamp, Frame, Wheel
from conemodel.parts.scenario import Scenario
from conemodel.parts.schema import PartProblems
from conemodel.parts.setting import MOST_CLAMP_FORCE, Assumed
from conemodel.physics.thread import clearance_for_backlash

USUAL_SIDE_LOAD = 90.0
"""Sideways load of the road at the tyre of a usual wheel [N]. Assumption."""

_STAYS = ("name", "story", "wheel", "drive", "brake", "mix", "condition", "heat", "setting", "limits")
"""What does not follow from what is known."""


class KnownScenario(Scenario):
    """A scenario that follows from what is known of a hub, and remembers what that is.

    What is changed in it stays changed; its file holds what is known, and beside it only what was changed.
    """

    known: KnownHub = Field(exclude=True)

    @staticmethod
    def of(known: KnownHub) -> "KnownScenario":
        """Return the hub of which this is known, with the usual setting.

        Raises:
            PartProblems: never for what `KnownHub` takes, but for a mistake in its checks.
        """
        return _derive(known)

    def with_known(self, known: KnownHub) -> "KnownScenario":
        """Return the same hub with other things known of it: its setting and all else that was changed stays.

        Raises:
            PartProblems: what was changed does not go with what is known now.
        """
        usual = KnownScenario.of(self.known)
        changed = {
            name: getattr(self, name) for name in _STAYS if getattr(self, name) != getattr(usual, name)
        }
        return KnownScenario.of(known).replace(**changed)


def at_ends_of_assumed(hub: KnownScenario) -> Iterator[tuple[KnownScenario, ...]]:
    """Yield, for each size only assumed of a hub within a range, the hub at both its ends, where that can be.

    A right row that nobody looked at goes with the left one, and a hub is as wide as its dropouts are known to be.
    """
    known = {*hub.known.known, *(["over_locknut_width"] if hub.known.dropout_width else [])}
    for field in KnownHub.model_fields:
        span = getattr(hub.known.usual, field.removesuffix("_left"), None)
        if isinstance(span, Usual) and field not in known:
            yield tuple(_possible(hub, field, {span.low, span.high} - {span.usual}))


def _possible(hub: KnownScenario, field: str, values: Iterable[float]) -> Iterator[KnownScenario]:
    for value in values:
        with suppress(PartProblems):
            yield hub.with_known(hub.known.replace(**{field: value}))


def is_front(hub: Scenario) -> bool:
    """Return whether a hub is a front one: as is known of it, else by its width."""
    if isinstance(hub, KnownScenario):
        return hub.known.usual.front
    return hub.hub.over_locknut_width < FRONT_BELOW


@lru_cache(maxsize=64)
def _derive(known: KnownHub) -> KnownScenario:
    sizes = Sizes(dict(known))
    return KnownScenario(
        known=known,
        name=_name(sizes),
        story=(
            "A hub by what is known of it: its family, and the sizes in its file. Everything else is usual for the "
            "family (common practice, no source) and assumed."
        ),
        hub=_hub(sizes),
        axle=_axle(sizes),
        stack=Stacks(left=_stack(sizes, "left"), right=_stack(sizes, "right")),
        clamp=Clamp(kind=sizes.family.clamp, rod_diameter=sizes.family.rod, force=known.clamp_force),
        frame=Frame(dropout_width=sizes.dropout_width, dropout_thickness=sizes.size("dropout_thickness")),
        wheel=Wheel(side_load=USUAL_SIDE_LOAD),
        assumed=_assumed(known),
    )


def _name(sizes: Sizes) -> str:
    """Return what to call a hub that nobody has named."""
    words, thread = sizes.family.words, sizes.thread.replace(" x ", " × ")
    return f"{words[:1].upper()}{words[1:]}, {MM.from_si(sizes.over_locknut_width):g} mm, {thread}"


def _hub(sizes: Sizes) -> Hub:
    """Return the shell: a wider one has its rows further apart, its cones as near the locknuts as usual."""
    width = sizes.over_locknut_width
    return Hub(
        left=_row(sizes, "left"),
        right=_row(sizes, "right"),
        row_spacing=_add(sizes.family.row_spacing, width, -sizes.family.over_locknut_width.usual),
        over_locknut_width=width,
    )


def _add(*lengths: float) -> float:
    """Return the sum of lengths [m], without the last digits that adding leaves."""
    return round(sum(lengths), 12)


def _row(sizes: Sizes, side: Side) -> RowGeometry:
    return RowGeometry(
        ball_diameter=sizes.of_side("ball_diameter", side),
        ball_count=sizes.of_side("ball_count", side),
        pitch_diameter=sizes.pitch_diameter(side),
        contact_angle=CONTACT_ANGLE,
    )


def _axle(sizes: Sizes) -> Axle:
    """Return the axle: as long as the hub with both its ends; nobody knows the classes of an inch thread."""
    diameter, pitch = THREADS[sizes.thread]
    metric = pitch == 1e-3
    slack, error = sizes.values.get("thread_slack"), sizes.values.get("thread_slack_error", 0.0)
    clearance, clearance_error = (
        None if each is None else float(clearance_for_backlash(axial_backlash=each))
        for each in (slack, error)
    )
    return Axle(
        thread_diameter=diameter,
        thread_pitch=pitch,
        bore=sizes.family.bore,
        length=_add(sizes.over_locknut_width, *(sizes.of_side("protrusion", side) for side in SIDES)),
        material=sizes.values.get("material", sizes.family.material),
        thread_clearance=clearance,
        thread_clearance_error=clearance_error or 0.0,
        axle_thread_class="6g" if metric else NOT_KNOWN,
        cone_thread_class="6H" if metric else NOT_KNOWN,
    )


def _stack(sizes: Sizes, side: Side) -> Stack:
    """Return cone, washers and locknut of a side; on another thread than usual they are as much wider as it is."""
    family = sizes.family
    wider = THREADS[sizes.thread][0] - THREADS[family.thread][0]
    return Stack(
        protrusion=sizes.of_side("protrusion", side),
        cone=family.cone,
        locknut_length=family.locknut_length,
        washer_outer_diameter=family.washer + wider,
        face_outer_diameter=family.face + wider,
        keyed_washer=sizes.values.get("keyed_washer", True),
        lock_torque=family.lock_torque,
    )


def _assumed(known: KnownHub) -> Assumed:
    """Return the ranges of what nobody measured; a measured clamp force lies within its error."""
    force, error = known.clamp_force, known.clamp_force_error
    if force is None or error is None:
        return Assumed()
    return Assumed(clamp_force_low=force - error, clamp_force_high=min(force + error, MOST_CLAMP_FORCE))
