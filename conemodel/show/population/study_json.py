"""A study of many hubs as one JSON object: everyday units, said in the names; numbers are not rounded."""

import json
import tomllib
from collections.abc import Iterable
from typing import Any

from conemodel.base.table import rows
from conemodel.base.units import DEG
from conemodel.parts.toml_files import write_part
from conemodel.show.population.tables import list_groups, list_influences, list_quantiles, list_tools
from conemodel.tasks.population.sobol import Influence
from conemodel.tasks.population.study import ManyHubs


def many_json(study: ManyHubs, influences: Iterable[Influence]) -> str:
    """Return a study as one JSON object; its names are fixed. The population stands in it as in its file."""
    groups = zip(rows(list_groups(study)), (*study.kinds, study.all), strict=True)
    *kinds, everything = ({**line, "quantiles": rows(list_quantiles(group))} for line, group in groups)
    whole: dict[str, Any] = {
        "population": tomllib.loads(write_part(study.crowd.population)),
        "hubs": study.all.number,
        "seed": study.seed,
        "back_off_deg": DEG.from_si(study.back_off),
        "all": everything,
        "kinds": kinds,
        "tools": rows(list_tools(study)),
        "what_matters": rows(list_influences(influences)),
        "beyond_tables": study.beyond,
    }
    return json.dumps(whole, ensure_ascii=False, indent=2, allow_nan=False)
