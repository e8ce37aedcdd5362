"""What a hub on the bench will be once it stands locked and closed in the frame, whatever is still to be done to it."""

from dataclasses import replace

from conemodel.tasks.practice.actions.locknut import Effort
from conemodel.tasks.practice.hub_terms import end_play_of, in_frame
from conemodel.tasks.practice.locknut import tighten
from conemodel.tasks.practice.session import HiddenHub, HubState


def usual_effort(secret: HiddenHub) -> Effort:
    """Return how hard a hand locks a hub: hard under axle nuts, which else drag the cone along."""
    return "firm" if secret.scenario.clamp.traits.through_axle else "hard"


def settled(secret: HiddenHub, hub: HubState) -> HubState:
    """Return a hub closed in the frame; one that is loose as a hand locks it that holds the cone and errs as usual."""
    if hub.lock is None:
        middle = sum(secret.drift) / 2
        steady = replace(
            secret, drift=(middle, middle), hand_error=0.0, scatter=secret.scatter.replace(pull=1.0)
        )
        held = replace(hub, cone_held=True, axle_held="vice", seat=None, closed=False)
        hub = tighten(steady, held, effort=usual_effort(secret), technique="nut turned")
    return in_frame(secret, hub)


def settled_end_play(secret: HiddenHub, hub: HubState) -> float:
    """Return the end play of a hub once it is locked and closed in the frame [m]."""
    return end_play_of(secret, settled(secret, hub))
