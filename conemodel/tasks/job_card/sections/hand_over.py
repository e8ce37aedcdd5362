"""Hand over: what the customer is told, and when the hub is looked at again."""

from conemodel.base.units import KILOMETRE
from conemodel.tasks.job_card.step import Amount, Choice, Day, Text

STEPS = (
    Choice(
        name="advice_given", words="Advice given",
        choices=("recheck after the first rides", "cone or cup to be renewed soon", "do not ride", "none"),
        hint="Grease spreads and faces bed in: closure and play are checked after the first ride, and again.",
    ),
    Day(name="recheck_on", words="Recheck on"),
    Amount(name="recheck_after", words="or after", unit=KILOMETRE, least=1, most=20000, step=50),
    Text(name="note", words="Note", optional=True, longest=500),
)  # fmt: skip
