"""What is only assumed, and how far each assumption moves the turn that is advised."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from conemodel.base.batch_cache import keep_answers
from conemodel.base.units import DEG, KILONEWTON, MM, NEWTON_METRE, ONE, Unit
from conemodel.parts import unknowns
from conemodel.parts.scenario import Scenario
from conemodel.solve.curves.hub_tables import HubTables
from conemodel.solve.stages.clamp_force import clamp_force
from conemodel.solve.stages.locknut import SHARE_OF_NUT, lock_force_on
from conemodel.solve.stages.terms import setting_terms, slack_share
from conemodel.tasks.setting.good_range import Window, window_in, windows_in
from conemodel.tasks.setting.scenario_tables import tables_with_variants


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """One assumption and the turns it leads to.

    Attributes:
        name: stable name; label: in words; span: the assumed range in words.
        low, high: least and most turn it alone leads to, along the axle [m], positive out.
        states: verdict at the low and at the high end of the assumption.
    """

    name: str
    label: str
    span: str
    low: float
    high: float
    states: tuple[str, str]

    @property
    def width(self) -> float:
        """How far it moves the turn [m]."""
        return self.high - self.low


class _Case(NamedTuple):
    """One assumption: name, words, range in words, and at both its ends the good range and the end play [m]."""

    name: str
    label: str
    span: str
    ends: tuple[tuple[Window, float], tuple[Window, float]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """All about a scenario that does not depend on where the cone stands.

    Attributes:
        tables: of its hub; window: its good range.
        cases: every assumption, for a cone where the fingers left it; back-off only adds to the end play.
    """

    tables: HubTables
    window: Window
    cases: tuple[_Case, ...]

    def spreads(self, scenario: Scenario) -> tuple[Spread, ...]:
        """Return what each assumption does with the cone where `scenario` has it, widest first."""
        held = scenario.setting.axle_held != "nothing"
        moved = scenario.setting.back_off * scenario.axle.lead_per_radian if held else 0.0
        return tuple(sorted((_spread(case, moved) for case in self.cases), key=lambda spread: -spread.width))


def outlook_of(scenario: Scenario) -> Outlook:
    """Return what holds for every position of the cone; it is cached.

    Raises:
        NotConverged: no balance of forces was found.
    """
    return _outlook(scenario.with_setting(back_off=0.0))


@keep_answers(size=64)
def _outlook(scenario: Scenario) -> Outlook:
    """Return the outlook of a scenario whose cone stands where the fingers left it.

    The hub is solved together with its variants: one batch costs little more than one hub.
    """
    variants = list(_variants(scenario))
    ends = [end for variant in variants for end in (variant.low, variant.high)]
    tables, *others = tables_with_variants(scenario, ends)
    windows = windows_in(others, [end.limits for end in ends])
    ridden = [
        (window, setting_terms(end).end_play("ridden")) for window, end in zip(windows, ends, strict=True)
    ]
    cases = (
        _Case(variant.name, variant.label, variant.span, both)
        for variant, both in zip(variants, zip(ridden[::2], ridden[1::2], strict=True), strict=True)
    )
    return Outlook(tables=tables, window=window_in(tables, scenario.limits), cases=tuple(cases))


class _Variant(NamedTuple):
    """One assumption: name, words, range in words, and the scenario at both its ends."""

    name: str
    label: str
    span: str
    low: Scenario
    high: Scenario


def _spread(case: _Case, moved: float) -> Spread:
    """Return the spread of one assumption for a cone that is `moved` out along the axle [m]."""
    turns = [window.target - end_play - moved for window, end_play in case.ends]
    low, high = (window.state(end_play + moved) for window, end_play in case.ends)
    return Spread(
        name=case.name,
        label=case.label,
        span=case.span,
        low=min(turns),
        high=max(turns),
        states=(low, high),
    )


def _variants(scenario: Scenario) -> Iterator[_Variant]:
    """Yield every assumption that bears on a scenario."""
    assumed, axle, setting = scenario.assumed, scenario.axle, scenario.setting
    forces = _around(clamp_force(scenario)[0], *assumed.clamp_forces(scenario.clamp.traits.force))
    yield _variant(
        "clamp_force",
        unknowns.joint.CLAMP_FORCE.words,
        f"{_span(forces, KILONEWTON)} kN",
        (_with_clamp_force(scenario, force) for force in forces),
    )
    shares = _around(axle.thread_core_share, assumed.core_share_low, assumed.core_share_high)
    yield _variant(
        "thread_give",
        unknowns.joint.CORE_SHARE.words,
        f"{_span(shares, ONE)} of their core's stretch",
        (scenario.replace(axle=axle.replace(thread_core_share=share)) for share in shares),
    )
    if scenario.clamp.traits.through_axle:
        bridged = _around(axle.thread_bridging, assumed.thread_bridging_low, assumed.thread_bridging_high)
        yield _variant(
            "thread_bridging",
            unknowns.joint.THREAD_BRIDGING.words,
            f"{_span(bridged, ONE)} of the way from root to stress area, bridged",
            (scenario.replace(axle=axle.replace(thread_bridging=share)) for share in bridged),
        )
    groove = (assumed.conformity_low, assumed.conformity_high)
    yield _variant(
        "conformity",
        unknowns.hub.GROOVE.words,
        f"{_span(groove, ONE)} of the ball",
        (with_conformity(scenario, value) for value in groove),
    )
    fingers = _around(setting.finger_torque, assumed.finger_torque_low, assumed.finger_torque_high)
    yield _variant(
        "finger_torque",
        unknowns.hands.FINGER_TORQUE.words,
        f"{_span(fingers, NEWTON_METRE)} N·m",
        (scenario.with_setting(finger_torque=torque) for torque in fingers),
    )
    yield _lock_variant(scenario)
    if scenario.setting.clamp_seat == "dropouts" and any(scenario.frame.dropout_turns):
        yield from _dropout_variants(scenario)
    if scenario.brake.kind == "disc":
        low, high = unknowns.hub.SHELL_WARMING.span
        own = scenario.heat.shell_warming
        warmings = (min(low, own), max(high, own))
        yield _variant(
            "heat",
            unknowns.hub.SHELL_WARMING.words,
            f"{_span(warmings, ONE)} °C",
            (scenario.replace(heat=scenario.heat.replace(shell_warming=warming)) for warming in warmings),
        )
    if axle.thread_clearance is None and slack_share(setting) != 0.0:
        yield _variant(
            "thread_slack",
            unknowns.joint.THREAD_FIT.words,
            f"{_span(axle.backlash_range, MM)} mm",
            (scenario.replace(axle=axle.replace(thread_clearance=c)) for c in axle.pitch_clearance_range),
        )
    if SHARE_OF_NUT[setting.technique] == 0.0:
        return
    stack = scenario.stack.side(scenario.hub.adjustable_side)
    if not setting.cone_held and stack.keyed_washer:
        turns = _around(stack.key_clearance, assumed.key_clearance_low, assumed.key_clearance_high)
        yield _variant(
            "key_clearance",
            unknowns.joint.KEY_CLEARANCE.words,
            f"{_span(turns, DEG)}°",
            (_with_stack(scenario, key_clearance=turn) for turn in turns),
        )
    if setting.cone_held:
        turns = _around(setting.drift, assumed.drift_low, assumed.drift_high)
        yield _variant(
            "drift",
            unknowns.hands.DRIFT.words,
            f"{_span(turns, DEG)}°",
            (scenario.with_setting(drift=turn) for turn in turns),
        )


def _dropout_variants(scenario: Scenario) -> Iterator[_Variant]:
    """Yield the compliances, not measured, of frame and stack about an axle between dropouts out of parallel."""
    frame, axle = scenario.frame, scenario.axle
    compliances = _around(frame.angular_compliance, *unknowns.hub.DROPOUT_GIVE.span)
    yield _variant(
        "dropout_give",
        unknowns.hub.DROPOUT_GIVE.words,
        f"{DEG.from_si(compliances[0]) * 10:.2g} to {DEG.from_si(compliances[1]) * 10:.2g}° under 10 N·m",
        (scenario.replace(frame=frame.replace(angular_compliance=compliance)) for compliance in compliances),
    )
    shares = _around(axle.ends_stiffened, *unknowns.hub.ENDS_STIFFENED.span)
    yield _variant(
        "ends_stiffened",
        unknowns.hub.ENDS_STIFFENED.words,
        f"{_span(shares, ONE)} of the way to a sleeve",
        (scenario.replace(axle=axle.replace(ends_stiffened=share)) for share in shares),
    )


def _lock_variant(scenario: Scenario) -> _Variant:
    """Return how hard the locknut presses: neither the torque on a thin spanner nor the friction is measured."""
    assumed, stack = scenario.assumed, scenario.stack.side(scenario.hub.adjustable_side)
    torques = _around(scenario.setting.lock_torque, assumed.lock_torque_low, assumed.lock_torque_high)
    frictions = _around(stack.thread_friction, assumed.friction_low, assumed.friction_high)
    ends = [
        _with_stack(
            scenario.with_setting(lock_torque=torque), thread_friction=friction, face_friction=friction
        )
        for torque, friction in zip(torques, reversed(frictions), strict=True)
    ]
    forces = [float(lock_force_on(end, end.hub.adjustable_side, end.setting.lock_torque)) for end in ends]
    return _variant(
        "lock_force", "force of the locknut", f"{_span((forces[0], forces[1]), KILONEWTON)} kN", ends
    )


def _variant(name: str, label: str, span: str, ends: Iterable[Scenario]) -> _Variant:
    low, high = ends
    return _Variant(name, label, span, low, high)


def _around(given: float, low: float, high: float) -> tuple[float, float]:
    """Return an assumed range, widened to what the scenario itself says: a turn advised lies within its range."""
    return min(low, given), max(high, given)


def _span(ends: tuple[float, float], unit: Unit) -> str:
    """Return a range as words, whole numbers where they are large."""
    low, high = (unit.from_si(end) for end in ends)
    return f"{low:.0f} to {high:.0f}" if high >= 10 else f"{low:.2g} to {high:.2g}"


def _with_clamp_force(scenario: Scenario, force: float) -> Scenario:
    """Return the scenario with its clamp closed by a `force` [N], however it was given."""
    return scenario.replace(clamp=scenario.clamp.replace(force=force, pick_up=None, torque=None))


def _with_stack(scenario: Scenario, **changes: float) -> Scenario:
    """Return the scenario with the stack of the adjustable side changed [SI]."""
    side = scenario.hub.adjustable_side
    return scenario.replace(
        stack=scenario.stack.replace(**{side: scenario.stack.side(side).replace(**changes)})
    )


def with_conformity(scenario: Scenario, value: float) -> Scenario:
    """Return the scenario with both grooves of both rows at another conformity."""
    hub = scenario.hub
    left, right = (row.replace(cone_conformity=value, cup_conformity=value) for row in (hub.left, hub.right))
    return scenario.replace(hub=hub.replace(left=left, right=right))
