"""Charts held to the schema of Vega-Lite, of which altair carries a copy. It is read once for all of them."""

import json
from functools import cache
from importlib.resources import files
from typing import Any

from jsonschema import Draft7Validator
from jsonschema.exceptions import best_match


@cache
def _validator() -> Draft7Validator:
    schema = json.loads(files("altair.vegalite.v6.schema").joinpath("vega-lite-schema.json").read_bytes())
    assert schema["$schema"] == Draft7Validator.META_SCHEMA["$schema"]
    return Draft7Validator(schema)


def check_vega_lite(chart: dict[str, Any]) -> None:
    """Check that `chart` is Vega-Lite.

    Raises:
        ValidationError: what the schema forbids, the likeliest cause first.
    """
    mistake = best_match(_validator().iter_errors(chart))
    if mistake is not None:
        raise mistake
