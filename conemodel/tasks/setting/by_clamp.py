"""How far a hub's cone is backed off, by what clamps the wheel and how hard."""

from collections.abc import Iterator
from dataclasses import dataclass

from conemodel.parts.clamp_kinds import CLAMP_KINDS, ClampKind
from conemodel.parts.scenario import Scenario
from conemodel.solve.stages.terms import setting_terms
from conemodel.tasks.setting.outlook import outlook_of


@dataclass(frozen=True, slots=True, kw_only=True)
class BackOff:
    """Where the cone of a hub should stand under one clamp; angles [rad] are out from finger contact.

    Attributes:
        kind_name: of the clamp; force: of it closed [N].
        first: the turn to try first; right, tight: how likely the hub is so then, over all that is assumed [-].
        good: both ends of the good range, were everything as assumed; None where no position is good.
    """

    kind_name: str
    force: float
    first: float
    right: float
    tight: float
    good: tuple[float, float] | None

    @property
    def kind(self) -> ClampKind:
        """What depends on the kind of clamp."""
        return CLAMP_KINDS[self.kind_name]


def in_its_frame(scenario: Scenario) -> Scenario:
    """Return a scenario whose cone stands at finger contact, its axle held, to be clamped in the frame."""
    held = "vice" if scenario.setting.axle_held == "nothing" else scenario.setting.axle_held
    return scenario.with_setting(back_off=0.0, axle_held=held, clamp_seat="dropouts")


def back_offs_by_clamp(scenario: Scenario) -> tuple[BackOff, ...]:
    """Return the back-off under each clamp the hub can have: its own from gently to hard, then axle nuts.

    Raises:
        NotConverged: no balance of forces was found.

    >>> from conemodel.parts.toml_files import load_scenario
    >>> rows = back_offs_by_clamp(load_scenario("scenarios/touring-rear.toml"))
    >>> [(row.kind.words, row.force) for row in rows]
    [('quick release', 3000.0), ('quick release', 5000.0), ('quick release', 8000.0), ('axle nuts', 15000.0)]
    """
    hub = in_its_frame(scenario)
    return tuple(_back_off(hub, *clamp) for clamp in _clamps(hub.clamp.kind))


def _clamps(own: str) -> Iterator[tuple[str, float]]:
    """Yield name and force [N] of each clamp that a hub with its `own` may be held by."""
    usual = CLAMP_KINDS[own].force
    for force in (usual.low, usual.usual, usual.high):
        yield own, usual.unit.to_si(force)
    if own == "quick release":
        nuts = CLAMP_KINDS["nuts"].force
        yield "nuts", nuts.unit.to_si(nuts.usual)


def _back_off(hub: Scenario, kind: str, force: float) -> BackOff:
    """Return the back-off of a hub under one clamp."""
    clamp = hub.clamp.replace(kind=kind, force=force, pick_up=None, torque=None)
    held = hub.replace(clamp=clamp)
    outlook, lead = outlook_of(held), hub.axle.lead_per_radian
    window, contact = outlook.window, setting_terms(held).judged_end_play
    good = (window.tight_edge - contact) / lead, (window.loose_edge - contact) / lead
    return BackOff(
        kind_name=kind,
        force=force,
        first=outlook.aim.moved / lead,
        right=outlook.aim.right,
        tight=outlook.aim.tight,
        good=good if good[0] < good[1] else None,
    )
