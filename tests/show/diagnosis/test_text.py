"""A checked hub as text: what is not worth a number has none."""

import re

import pytest

from conemodel.parts.library import SCENARIOS
from conemodel.parts.readings import load_readings
from conemodel.show.diagnosis.text import check_text
from conemodel.tasks.diagnosis.diagnose import diagnose

SHIPPED = sorted((SCENARIOS / "readings").glob("*.toml"))


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_what_a_measurement_tells_is_a_number_only_where_that_is_not_nothing(path):
    text = check_text(diagnose(load_readings(path)))
    assert "Measure next" in text
    assert all(float(bits) > 0 for bits in re.findall(r"\(([\d.]+) bits\)", text))
