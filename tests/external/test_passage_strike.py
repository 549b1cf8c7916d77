"""Strike against simulation of moving blades, classical forms and laboratory rows."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.passage.crossing import RowCrossing
from racewright.passage.injury import injury, mutilation_ratio
from racewright.passage.species import fish_class
from racewright.passage.strike import strike
from racewright.passage.strike_chance import strike_chance
from tests.external.passage_moving import struck_share
from tests.external.record import Record
from tests.external.supply_rows import rows

CASES = [
    # count, Omega, V, r, L, w, a, Cth, t
    (3, 16.0, 2.0, 0.5, 0.15, 0.0, 0.0, 0.0, 0.0),
    (5, 10.5, 2.3, 0.35, 0.12, 0.0, 0.0, 0.5, 0.0),
    (5, 10.5, 2.3, 0.35, 0.12, 0.025, math.atan2(0.5, 2.3), 0.5, 0.005),
    (5, 10.5, 2.2, 0.15, 0.06, 0.012, 0.0, 1.1, 0.005),
    (7, 0.0, 2.2, 0.30, 0.20, 0.05, 0.0, 0.0, 0.006),
    (4, 6.0, 3.0, 0.60, 0.30, 0.06, -0.4, -0.8, 0.02),
]


@pytest.mark.outside(
    source="moving blades and bodies marched through time, 4000 random clockings, written apart from the product",
    status="computed",
    tolerance="1 %",
)
def test_closed_form_against_moving_blades(record_property: Record) -> None:
    worst = 0.0
    for count, turn, speed, radius, length, width, angle, swirl, edge in CASES:
        closed = float(
            strike_chance(
                count,
                turn,
                speed,
                radius,
                length,
                swirl=swirl,
                body_angle=angle,
                body_width=width,
                edge_thickness=edge,
            )
        )
        assert 0.05 < closed < 0.95
        moved = struck_share(count, turn, speed, radius, length, width, angle, swirl, edge)
        worst = max(worst, abs(closed / moved - 1.0))
    record_property("measured", f"{100.0 * worst:.2f} %")
    assert worst < 0.01


@pytest.mark.outside(
    source="the same simulation at radii drawn evenly with the water; sheared water with swirl, full bodies",
    status="computed",
    tolerance="1 %",
)
def test_mean_over_the_flow_against_moving_blades(record_property: Record) -> None:
    """Radii by strata of the flow 2 pi r V, V = 2 + r: hit shares averaged, against the product's mean."""
    fish, long = fish_class("salmonid_smolt"), 0.1
    radius = np.linspace(0.15, 0.5, 33)
    axial, swirl = 2.0 + radius, 0.15 / radius
    even = np.ones(33)
    row = RowCrossing("rotor", 5, 9.0, radius, axial, swirl, 0.004 * even, 1.5 * even)
    closed = float(strike([row], fish, long, heading="along the water").chance[0])
    grid = np.linspace(0.15, 0.5, 2001)
    passed = grid**2 - 0.15**2 + (grid**3 - 0.15**3) / 3.0
    drawn = np.interp(
        (np.arange(40) + np.random.default_rng(5).uniform(0.0, 1.0, 40)) / 40.0 * passed[-1], passed, grid
    )
    shares = [
        struck_share(
            5, 9.0, 2.0 + r, r, long, 0.2 * long, math.atan2(0.15 / r, 2.0 + r), 0.15 / r, 0.004, fish=500, steps=600
        )
        for r in drawn
    ]
    record_property("measured", f"{100.0 * abs(closed / np.mean(shares) - 1.0):.2f} %")
    assert closed == pytest.approx(np.mean(shares), rel=0.01)


@pytest.mark.outside(
    source="von Raben (1957): P = B (n/60) L/V_ax; B 3, R 0.5 m, 16 rad/s, L 0.15 m, 2 m/s, and B 2, 60 rpm",
    status="closed form",
    tolerance="1e-6",
)
def test_von_raben(record_property: Record) -> None:
    radius = np.linspace(0.1, 0.5, 5)
    fast = strike_chance(3, 16.0, 2.0, radius, 0.15)
    slow = strike_chance(2, 2.0 * math.pi, 2.0, radius, 0.15)
    worst = max(np.abs(fast / 0.5729578 - 1.0).max(), np.abs(slow / 0.15 - 1.0).max())
    record_property("measured", f"{worst:.0e}")
    assert fast == pytest.approx(0.5729578, rel=1e-6)
    assert slow == pytest.approx(0.15, rel=1e-9)
    assert strike_chance(3, 16.0, 2.0, 0.5, 0.30) == 1.0


@pytest.mark.outside(
    source="Franke and others (1997), axial form with lambda 1: path 10 degrees from the axis at r/R 0.75",
    status="from memory",
    tolerance="1e-5",
)
def test_franke(record_property: Record) -> None:
    found = float(strike_chance(3, 16.0, 2.0, 0.375, 0.15, body_angle=math.radians(10.0)))
    record_property("measured", f"{abs(found / 0.597418 - 1.0):.0e}")
    assert found == pytest.approx(0.597418, rel=1e-5)


@pytest.mark.outside(
    source="von Raben (1957): the chance does not change with stream speed at one tip-speed ratio",
    status="closed form",
    tolerance="1e-12",
)
def test_stream_speed_does_not_matter() -> None:
    fish = fish_class("salmonid_smolt")
    radius, even = np.linspace(0.1, 0.5, 9), np.ones(9)

    def chance(stream: float) -> float:
        row = RowCrossing(
            "rotor", 3, 8.0 * stream, radius, 0.7 * stream * even, 0.1 * stream / radius, 0.002 * even, 1.5 * even
        )
        return float(strike([row], fish, 0.1).chance[0])

    assert chance(1.0) < 1.0
    assert [chance(2.0), chance(3.0)] == pytest.approx([chance(1.0)] * 2, rel=1e-12)


@pytest.mark.outside(
    source="Turnpenny and others (2000): 0.1533 ln(L in cm) + 0.0125 at 10, 15, 20, 30 cm",
    status="from memory",
    tolerance="1e-4",
)
def test_mutilation_ratio(record_property: Record) -> None:
    want = np.array([0.3655, 0.4276, 0.4717, 0.5339])
    found = mutilation_ratio([0.10, 0.15, 0.20, 0.30])
    record_property("measured", f"{np.abs(found - want).max():.0e}")
    assert found == pytest.approx(want, abs=1e-4)


@pytest.mark.outside(
    source="Amaral and others (2020), EPRI series 2008-2011 (recalled): survival by speed, L/t and slant",
    status="published",
    tolerance="each row within the range",
)
def test_laboratory_strikes_lie_within_the_range() -> None:
    for row in rows("passage_strikes"):
        length = 0.2
        edge = length / float(row["L_over_t"]) if row["L_over_t"] else 1e-4
        found = injury(float(row["strike_speed_m_s"]), length, edge, math.radians(float(row["slant_deg"])))
        dead = 1.0 - float(row["survival_percent"]) / 100.0
        assert float(found.low) - 1e-9 <= dead <= float(found.high) + 1e-9


@pytest.mark.outside(
    source="Amaral and others (2020), Bevelhimer and others (2019): a slanted edge kills less than a square one",
    status="published",
    tolerance="trend",
)
def test_slant_helps() -> None:
    slanted, square = (injury(10.0, 0.2, 0.1, math.radians(angle)) for angle in (30.0, 90.0))
    assert slanted.high < square.low
