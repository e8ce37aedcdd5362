"""A cone as a caliper measures it, from its outer end, the one that faces the locknut."""

from collections.abc import Iterator, Mapping
from typing import Any

from conemodel.base.units import MM
from conemodel.parts.schema import FieldError, Part, quantity


class Cone(Part):
    """One cone; what is left out is as on a usual rear one. Common practice, no source."""

    length: float = quantity(MM, "length of the cone, end to end", default=15.5, at_least=6, at_most=30)
    ball_place: float = quantity(
        MM, "from the cone's outer end to the plane of the ball centres", default=12.75, above=0, at_most=30
    )
    thread_length: float = quantity(
        MM, "length of the cone's thread, from its outer end", default=15.5, at_least=2, at_most=30
    )

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """Balls and thread must lie on the cone."""
        yield from super().cross_checks(values)
        for name in ("ball_place", "thread_length"):
            if {name, "length"} <= values.keys() and values[name] > values["length"]:
                yield FieldError(
                    field=name,
                    value=values[name],
                    limit="must not be above the length of the cone, {}",
                    bound=values["length"],
                    remedy="measure all three from the end that faces the locknut",
                )
