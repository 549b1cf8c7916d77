"""End-wall and tip losses against the published forms' check points."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.stage.end_wall import ainley_mathieson, dunham_came
from tests.external.record import Record

INLET, OUTLET, SPAN, GAP = 0.0, math.tan(math.radians(30.0)), 2.0, 0.01
"""Check point: a1 0, a2 30 degrees, h/c 2, k/c 0.01; taken at c/s 1, of which Y does not depend."""
MEAN = 0.5 * (INLET + OUTLET)
COS_MEAN = 1.0 / math.hypot(1.0, MEAN)
LIFT = 2.0 * OUTLET * COS_MEAN


def _over_outlet(drag: float) -> float:
    """Head that a drag coefficient loses over the outlet's dynamic head, c/s 1."""
    return float(0.5 * drag / COS_MEAN**3 / (0.5 * (1.0 + OUTLET**2)))


def _arguments() -> tuple[np.ndarray, ...]:
    ratio = math.cos(math.atan(OUTLET)) / math.cos(math.atan(INLET))
    return tuple(np.array([v]) for v in (LIFT, 1.0, SPAN, GAP, ratio))


@pytest.mark.outside(
    source="check point: am 16.1021 degrees, CL s/c 1.109400, Z 1.040833", status="closed form", tolerance="1e-6"
)
def test_check_point_is_the_stated_one() -> None:
    """am 16.1021 degrees, CL/(s/c) 1.109400, Z 1.040833."""
    assert math.degrees(math.acos(COS_MEAN)) == pytest.approx(16.1021, abs=1e-4)
    assert pytest.approx(1.109400, abs=1e-6) == LIFT
    loading = LIFT**2 / (1.0 + OUTLET**2) / COS_MEAN**3
    assert loading == pytest.approx(1.040833, abs=1e-6)


@pytest.mark.outside(
    source="Dunham & Came 1970: Ys 0.0150532 and plain tip Yk 0.0067367 at Z 1.040833, h/c 2, k/c 0.01",
    status="from memory",
    tolerance="1e-6",
)
def test_dunham_came(record_property: Record) -> None:
    """The drag forms lose the heads that the two loss coefficients over the outlet's dynamic head lose."""
    found = dunham_came(*_arguments())
    secondary, tip = _over_outlet(float(found.secondary[0])), _over_outlet(float(found.tip[0]))
    record_property("measured", f"{abs(secondary - 0.0150532):.0e} secondary, {abs(tip - 0.0067367):.0e} tip")
    assert secondary == pytest.approx(0.0150532, abs=1e-6)
    assert tip == pytest.approx(0.0067367, abs=1e-6)


@pytest.mark.outside(
    source="Ainley & Mathieson 1951: plain tip Yk 0.0026021 at Z 1.040833, h/c 2, k/c 0.01",
    status="from memory",
    tolerance="1e-6",
)
def test_ainley_mathieson(record_property: Record) -> None:
    """The older form, B 0.5, and no secondary loss."""
    found = ainley_mathieson(*_arguments())
    tip = _over_outlet(float(found.tip[0]))
    record_property("measured", f"{abs(tip - 0.0026021):.0e}")
    assert tip == pytest.approx(0.0026021, abs=1e-6)
    assert found.secondary[0] == 0.0
