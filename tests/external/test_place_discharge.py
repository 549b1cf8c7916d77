"""Discharge from soundings against worked examples and profile algebra."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.place.discharge import discharge
from racewright.place.discharge_uncertainty import GaugingErrors, relative_uncertainty
from racewright.place.soundings import Vertical
from tests.external.record import Record
from tests.external.supply_rows import rows


def textbook() -> tuple[Vertical, ...]:
    found = []
    for row in rows("place_soundings"):
        turns = float(row["revs"])
        speeds = (0.51 * turns / float(row["seconds"]) + 0.03,) if turns else ()
        found.append(Vertical(float(row["distance_m"]), float(row["depth_m"]), speeds))
    return tuple(found)


@pytest.mark.outside(
    source="Subramanya, Engineering Hydrology, ch. 4, soundings and meter v = 0.51 N + 0.03: half-widths to each "
    "neighbour give 6.23568 m3/s over 19.55 m2, mean-section 6.00518 m3/s (both by hand; the book's own end "
    "rule, 6.45, is neither)",
    status="closed form",
    tolerance="1e-6",
)
def test_textbook_soundings(record_property: Record) -> None:
    found = discharge(textbook())
    record_property("measured", f"{found.mid_section:.5f} and {found.mean_section:.5f} m3/s")
    assert found.mid_section == pytest.approx(6.23568, abs=5e-6)
    assert found.mean_section == pytest.approx(6.00518, abs=5e-6)
    assert found.area == pytest.approx(19.55, abs=1e-9)
    assert found.panel.sum() == pytest.approx(found.mid_section, rel=1e-14)


@pytest.mark.outside(
    source="Two panels of a stream-gauging lecture table: 1.05 m, 0.384 m/s between 0.60, 1.20 and 1.80 m carry "
    "0.242; 1.56 m, 0.432 m/s between 1.20, 1.80 and 2.70 m carry 0.505 m3/s",
    status="published",
    tolerance="5e-4 m3/s: printed to three places",
)
def test_lecture_panels() -> None:
    verticals = (
        Vertical(0.6, 0.0),
        Vertical(1.2, 1.05, (0.384,)),
        Vertical(1.8, 1.56, (0.432,)),
        Vertical(2.7, 0.0),
    )
    found = discharge(verticals)
    np.testing.assert_allclose(found.panel[1:3], [0.242, 0.505], atol=5e-4)


@pytest.mark.outside(
    source="One-, two-point rule in power and log profiles, over the true mean (algebra); 1.2 and 0.6 m/s have the "
    "two-point mean 0.90 m/s; three points give the mean of both rules",
    status="closed form",
    tolerance="2e-6: the table has six decimals",
)
def test_point_rules_in_known_profiles() -> None:
    assert Vertical(1.0, 2.0, (1.2, 0.6)).mean_speed == pytest.approx(0.9, abs=1e-12)
    for row in rows("place_profiles"):
        n = float(row["n_or_h_over_z0"])

        def speed(below: float, n: float = n, law: str = row["law"]) -> float:
            z = 1.0 - below
            if law == "power":
                return float((1.0 + 1.0 / n) * z ** (1.0 / n))
            return float(np.log(z * n) / (np.log(n) - 1.0 + 1.0 / n))

        one = Vertical(0.0, 1.0, (speed(0.6),)).mean_speed
        two = Vertical(0.0, 1.0, (speed(0.2), speed(0.8))).mean_speed
        three = Vertical(0.0, 1.0, (speed(0.2), speed(0.6), speed(0.8))).mean_speed
        assert one == pytest.approx(float(row["u_at_0p6depth_over_mean"]), abs=2e-6)
        assert two == pytest.approx(float(row["two_point_over_mean"]), abs=2e-6)
        assert three == pytest.approx(0.5 * (one + two), rel=1e-12)


@pytest.mark.outside(
    source="parabolic channel, speed growing as its depth: integral of depth^2 across; both rules converge",
    status="closed form",
    tolerance="order 2 within 0.1 at 20 and 40 panels",
)
def test_both_rules_converge_with_the_square_of_the_spacing(record_property: Record) -> None:
    exact = 16.0 / 15.0
    error = []
    for pieces in (20, 40, 80):
        x = np.linspace(-1.0, 1.0, pieces + 1)
        depth = 1.0 - x**2
        verticals = tuple(Vertical(a, d, (d,) if d > 0.0 else ()) for a, d in zip(x, depth, strict=True))
        found = discharge(verticals)
        error.append((abs(found.mid_section / exact - 1.0), abs(found.mean_section / exact - 1.0)))
    order = np.log2(np.array(error[:-1]) / np.array(error[1:]))
    record_property("measured", f"orders {order[1, 0]:.2f} and {order[1, 1]:.2f}")
    assert (order > 1.9).all()
    assert error[1][1] < 2e-3


@pytest.mark.outside(
    source="ISO 748 budget for 20 equal panels, one point each: 0.025 verticals, (0.005^2 + 0.01^2 + 0.075^2 + "
    "0.01^2 + 0.06^2)/20, systematic 0.01; coefficients recalled, no clause checked",
    status="from memory",
    tolerance="1e-12 on the sum; the coefficients themselves are unchecked",
)
def test_budget_of_equal_panels() -> None:
    found = relative_uncertainty(np.full(20, 0.7), np.ones(20, dtype=np.int64), GaugingErrors())
    by_hand = 0.01**2 + 0.025**2 + (0.005**2 + 0.01**2 + 0.075**2 + 0.01**2 + 0.06**2) / 20.0
    assert found == pytest.approx(np.sqrt(by_hand), rel=1e-12)
    two = relative_uncertainty(np.full(20, 0.7), np.full(20, 2, dtype=np.int64), GaugingErrors())
    by_hand = 0.01**2 + 0.025**2 + (0.005**2 + 0.01**2 + 0.035**2 + (0.01**2 + 0.06**2) / 2.0) / 20.0
    assert two == pytest.approx(np.sqrt(by_hand), rel=1e-12)
