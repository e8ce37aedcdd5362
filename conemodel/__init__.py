"""Cup-and-cone hub bearings: what a cone setting becomes after the locknut and the clamp.

The face that people script against; everything here is loaded on first use::

    import conemodel as cm

    scenario = cm.load_scenario("scenarios/touring-rear.toml")
    prediction = cm.predict(scenario)
    prediction.stages["clamped"].end_play  # [m], signed
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

from conemodel._version import __version__ as __version__

if TYPE_CHECKING:
    from conemodel.base.errors import ConemodelError as ConemodelError
    from conemodel.base.errors import InputProblems as InputProblems
    from conemodel.base.errors import NotConverged as NotConverged
    from conemodel.parts.bearing import Pair as Pair
    from conemodel.parts.bearing import Row as Row
    from conemodel.parts.readings import load_readings as load_readings
    from conemodel.parts.scenario import Scenario as Scenario
    from conemodel.parts.toml_files import load_scenario as load_scenario
    from conemodel.solve.equilibrium.pair import solve_pair as solve_pair
    from conemodel.tasks.diagnosis.diagnose import diagnose as diagnose
    from conemodel.tasks.setting.predict import predict as predict
    from conemodel.tasks.setting.sweep import sweep as sweep

_HOMES = {
    "ConemodelError": "base.errors",
    "InputProblems": "base.errors",
    "NotConverged": "base.errors",
    "Pair": "parts.bearing",
    "Row": "parts.bearing",
    "Scenario": "parts.scenario",
    "diagnose": "tasks.diagnosis.diagnose",
    "load_readings": "parts.readings",
    "load_scenario": "parts.toml_files",
    "predict": "tasks.setting.predict",
    "solve_pair": "solve.equilibrium.pair",
    "sweep": "tasks.setting.sweep",
}

__all__ = [*_HOMES]  # noqa: PLE0604 - the names are strings; the linter cannot see that


def __getattr__(name: str) -> Any:
    """Load one of the public names on first use, so that importing the package stays cheap."""
    if name not in _HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value = getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    """List the public names, loaded or not."""
    return sorted([*globals(), *_HOMES])
