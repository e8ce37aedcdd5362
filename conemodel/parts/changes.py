"""Parts of which only some fields are given, to be laid over a whole one: a scenario with a few things changed.

A changed field has the key, unit and limits it has in the part itself, so a file that changes a scenario is read as
strictly as a scenario.
"""

from typing import TYPE_CHECKING, Any, Optional, TypeAlias, TypeVar

from pydantic import create_model
from pydantic.fields import FieldInfo

from conemodel.parts.axle import Axle
from conemodel.parts.hub import Stack
from conemodel.parts.mounting import Clamp, Frame, Wheel
from conemodel.parts.scenario import Scenario
from conemodel.parts.schema import Part
from conemodel.parts.setting import Setting

P = TypeVar("P", bound=Part)

FORCE_GIVEN_BY = ("force", "pick_up", "torque")
"""Ways to give a clamp's force; one that is given takes the place of the others."""


def _changes_of(part: type[Part]) -> type[Part]:
    """Return a part with the fields of `part`, none of which need be given; those not given are None."""
    fields: dict[str, Any] = {}
    for name, field in part.model_fields.items():
        free = FieldInfo(
            default=None, description=field.description, json_schema_extra=field.json_schema_extra
        )
        free.metadata = list(field.metadata)
        fields[name] = (Optional[field.annotation], free)  # noqa: UP045 - of a type known only here
    doc = f"Some fields of {part.__name__}, to be laid over a whole one."
    made: type[Part] = create_model(f"{part.__name__}Changes", __base__=Part, __doc__=doc, **fields)
    return made


if TYPE_CHECKING:
    AxleChanges: TypeAlias = Part
    ClampChanges: TypeAlias = Part
    FrameChanges: TypeAlias = Part
    SettingChanges: TypeAlias = Part
    StackChanges: TypeAlias = Part
    WheelChanges: TypeAlias = Part
else:
    AxleChanges, ClampChanges, FrameChanges, SettingChanges, StackChanges, WheelChanges = map(
        _changes_of, (Axle, Clamp, Frame, Setting, Stack, Wheel)
    )


class StacksChanges(Part):
    """What is changed in the stacks of both sides."""

    left: StackChanges = StackChanges()
    right: StackChanges = StackChanges()


class ScenarioChanges(Part):
    """What is changed in a scenario; its hub is not: name another scenario for that."""

    axle: AxleChanges = AxleChanges()
    stack: StacksChanges = StacksChanges()
    clamp: ClampChanges = ClampChanges()
    frame: FrameChanges = FrameChanges()
    wheel: WheelChanges = WheelChanges()
    setting: SettingChanges = SettingChanges()

    def apply_to(self, scenario: Scenario) -> Scenario:
        """Return `scenario` with the changes made.

        Raises:
            PartProblems: they do not go together.
        """
        stack = scenario.stack
        return scenario.replace(
            axle=_apply(self.axle, scenario.axle),
            stack=stack.replace(
                left=_apply(self.stack.left, stack.left), right=_apply(self.stack.right, stack.right)
            ),
            clamp=_apply(self.clamp, scenario.clamp),
            frame=_apply(self.frame, scenario.frame),
            wheel=_apply(self.wheel, scenario.wheel),
            setting=_apply(self.setting, scenario.setting),
        )


def _apply(changes: Part, whole: P) -> P:
    """Return a part with changes made."""
    given = {name: value for name, value in changes if value is not None}
    if isinstance(whole, Clamp) and any(name in given for name in FORCE_GIVEN_BY):
        given = {**dict.fromkeys(FORCE_GIVEN_BY), **given}
    return whole.replace(**given)
