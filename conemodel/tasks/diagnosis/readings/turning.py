"""How the hub turns: as a word of the fingers, and as the weight that sets the wheel turning."""

from dataclasses import dataclass

import numpy as np
from scipy.special import ndtr

from conemodel.base.units import GRAM, Array
from conemodel.parts.readings import Round
from conemodel.physics.motion import GRAVITY
from conemodel.tasks.diagnosis.likelihood import TURNING_WORDS, Feel, turning_chances, weight_likelihood
from conemodel.tasks.diagnosis.model import HubModel
from conemodel.tasks.diagnosis.readings.reading import (
    BINS,
    NumberField,
    Pick,
    Reading,
    WordField,
    between,
    chance_of_word,
)

TORQUE_ERROR = 6e-3
"""Standard uncertainty of a starting torque that is still to be taken [N·m]. Assumption."""

SETTLE = "Feel it again through a whole turn, in the frame and out of it"
"""What to do where it contradicts the other readings."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TurningReading(Reading):
    """What the fingers say of turning."""

    def describe(self, look: Round) -> str:
        """Return the word."""
        return str(getattr(look, self.key))

    def likelihood(self, model: HubModel, look: Round, end_play: Array) -> Array:
        """Return the chance of the word."""
        chances = turning_chances(model.feel(end_play), model.beliefs)
        return np.asarray(chances[TURNING_WORDS.index(getattr(look, self.key))])

    def strangeness(
        self, model: HubModel, look: Round, end_play: Array, chance: Array, likelihood: Array
    ) -> tuple[float, str]:
        """Return the chance of the word; nothing in particular is expected."""
        return chance_of_word(likelihood, chance), ""

    def outcomes(self, model: HubModel, end_play: Array, pick: Pick) -> Array:
        """Return the chance of each word."""
        feel = Feel(*(pick(part) for part in model.feel(end_play)))
        return np.moveaxis(turning_chances(feel, model.beliefs), 0, -1)


@dataclass(frozen=True, slots=True, kw_only=True)
class StartingWeight(Reading):
    """The least weight at the rim that sets the balanced wheel turning."""

    def describe(self, look: Round) -> str:
        """Return the weight."""
        return f"{GRAM.from_si(look.starting_weight or 0.0):.0f} g"

    def likelihood(self, model: HubModel, look: Round, end_play: Array) -> Array:
        """Return the density of the torque it makes."""
        arm = GRAVITY * model.scenario.wheel.rim_radius
        return weight_likelihood(
            model.drag(end_play),
            read=(look.starting_weight or 0.0) * arm,
            uncertainty=look.starting_weight_uncertainty * arm,
            beliefs=model.beliefs,
        )

    def strangeness(
        self, model: HubModel, look: Round, end_play: Array, chance: Array, likelihood: Array
    ) -> tuple[float, str]:
        """Return that no weight is strange: grease and seals can take any."""
        return 1.0, "any"

    def outcomes(self, model: HubModel, end_play: Array, pick: Pick) -> Array:
        """Return the chance of each of `BINS` starting torques."""
        torque, beliefs = pick(model.drag(end_play)), model.beliefs
        spread = np.sqrt(beliefs.other_drag_spread**2 + TORQUE_ERROR**2 + (0.2 * torque) ** 2)
        edges = np.linspace(0.0, float(torque.max()) + 3 * float(spread.max()) + beliefs.other_drag, BINS)
        return between(ndtr((edges[None, :] - torque[:, None] - beliefs.other_drag) / spread[:, None]))


def _turns(key: str, label: str, clamp: str, asked: str = "") -> TurningReading:
    return TurningReading(
        key=key,
        label=f"{label}, clamp {clamp}",
        clamp="closed" if clamp == "closed" else "open",
        group="turning",
        asked=(WordField(name=key, label=asked, words=TURNING_WORDS),) if asked else (),
        instruction=f"feel {label}, clamp {clamp}",
        why="tight or free, even or in one place",
        settle=SETTLE,
    )


TURNS_OPEN = _turns("turns_open", "how the axle turns", "open", asked="Clamp open, the axle in the fingers")
TURNS_CLOSED = _turns("turns_closed", "how the wheel turns", "closed")
STARTING_WEIGHT = StartingWeight(
    key="starting_weight",
    label="weight that sets the wheel turning",
    clamp="closed",
    group="turning",
    asked=(
        NumberField(
            name="starting_weight",
            uncertainty="starting_weight_uncertainty",
            step=1.0,
            form="%.0f",
            hint="The least weight at the rim that starts the balanced wheel turning, clamp closed.",
        ),
    ),
    instruction="hang small weights at the rim of the balanced wheel until it starts, clamp closed",
    why="too tight and right both rock not at all; the drag tells them apart",
    settle=SETTLE,
)
