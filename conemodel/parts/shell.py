"""What the hub's shell is made of, and how its cups sit in it: what tells how far they grow together when warm."""

from collections.abc import Iterator, Mapping
from typing import Any, Literal

from conemodel.base.units import MM, ONE
from conemodel.parts.schema import FieldError, Part, quantity
from conemodel.parts.unknowns.hub import CUP_FOLLOW


class Shell(Part):
    """The shell round steel cups that are pressed into it."""

    material: Literal["aluminium", "steel"] = quantity(ONE, "what the shell is made of", default="aluminium")
    cup_follow: float = quantity(
        ONE,
        "share of the shell's extra growth that pressed cups follow, where no diameters are given",
        default=CUP_FOLLOW.usual,
        at_least=0,
        at_most=1,
    )
    cup_outer_diameter: float | None = quantity(
        MM, "outer diameter of the pressed cups", default=None, above=5, at_most=250
    )
    outer_diameter_at_cup: float | None = quantity(
        MM, "outer diameter of the shell round the cups", default=None, above=5, at_most=300
    )

    @classmethod
    def cross_checks(cls, values: Mapping[str, Any]) -> Iterator[FieldError]:
        """Both diameters belong together, the cups inside the shell."""
        yield from super().cross_checks(values)
        if not {"cup_outer_diameter", "outer_diameter_at_cup"} <= values.keys():
            return
        cup, shell = values["cup_outer_diameter"], values["outer_diameter_at_cup"]
        if (cup is None) != (shell is None):
            missing = "cup_outer_diameter" if cup is None else "outer_diameter_at_cup"
            yield FieldError(field=missing, value="nothing", limit="must be given beside the other diameter")
        elif cup is not None and shell <= cup:
            yield FieldError(
                field="outer_diameter_at_cup",
                value=shell,
                limit="must be larger than the cups, {}",
                bound=cup,
            )
