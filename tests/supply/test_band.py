"""Bands, turbulence, availability and several machines: limits, remarks, refusals."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.place.speed_uncertainty import SpeedCause
from racewright.supply.availability import LostTime, availability, stops
from racewright.supply.energy import yearly_energy
from racewright.supply.power_table import PowerTable
from racewright.supply.river_share import RiverShare, river_share
from racewright.supply.speed_band import EnergyCause, energy_band
from racewright.supply.turbulence import in_turbulence, turbulence
from racewright.uncertainty import Band

SPEED = np.linspace(0.0, 4.0, 81)
TABLE = PowerTable(SPEED, np.minimum(300.0 * SPEED**3, 3000.0), 0.7, 3000.0, 0.9)
EDGE = np.linspace(0.0, 3.5, 36)
SHARE = np.full(35, 1.0 / 35.0)
LOW, HIGH = 0.75 * TABLE.power, 1.25 * TABLE.power
ONE = Band(8.0e9, 1.0e10, 1.2e10, "power curve")


def test_without_doubt_about_speed_the_band_is_that_of_the_power_curve() -> None:
    year = yearly_energy(
        EDGE,
        SHARE,
        SPEED,
        TABLE.power,
        availability=0.9,
        rated_power=3000.0,
        cut_in_speed=0.7,
        power_low=LOW,
        power_high=HIGH,
    )
    found = energy_band(EDGE, SHARE, TABLE, LOW, HIGH, ())
    for mine, other in zip(
        (found.total.low, found.total.value, found.total.high),
        (year.total.low, year.total.value, year.total.high),
        strict=True,
    ):
        assert mine == pytest.approx(other, rel=1e-12)
    assert found.remarks[0].severity == "caution"


def test_doubt_about_speed_widens_and_saturates_at_rated_power() -> None:
    wide = energy_band(EDGE, SHARE, TABLE, LOW, HIGH, (SpeedCause("speed factor", 0.2, 1.0),))
    none = energy_band(EDGE, SHARE, TABLE, LOW, HIGH, ())
    assert wide.total.low < none.total.low
    assert wide.total.high > none.total.high
    assert 0.0 <= wide.total.low < wide.total.value < wide.total.high
    assert [r.about for r in wide.remarks] == ["band", "power curve"]
    further = PowerTable(np.append(SPEED, 6.0), np.append(TABLE.power, 3000.0), 0.7, 3000.0, 0.9)
    low, high = 0.75 * further.power, 1.25 * further.power
    runs_on = energy_band(EDGE, SHARE, further, low, high, (SpeedCause("speed factor", 0.2, 1.0),))
    assert runs_on.total.high > wide.total.high
    assert [r.about for r in runs_on.remarks] == ["band"]
    assert 0.0 < wide.sensitivity < 3.0
    fast = np.where(EDGE[:-1] > 2.6, 1.0, 0.0)
    rated = energy_band(EDGE, fast / fast.sum(), TABLE, LOW, HIGH, (SpeedCause("speed factor", 0.02, 1.0),))
    assert rated.sensitivity == pytest.approx(0.0, abs=1e-9)


def test_still_water_has_no_energy_and_no_failure() -> None:
    share = np.append(1.0, np.zeros(34))
    found = energy_band(EDGE, share, TABLE, LOW, HIGH, (SpeedCause("speed factor", 0.1, 1.0),))
    assert (found.total.low, found.total.high, found.sensitivity) == (0.0, 0.0, 0.0)


def test_turbulence_is_told_and_not_counted() -> None:
    found = turbulence(EDGE, SHARE, TABLE, 0.2, contained=False)
    assert found.cube_factor == pytest.approx(1.12)
    assert abs(found.followed - 1.0) < 0.12
    assert [r.severity for r in found.remarks] == ["note", "caution"]
    assert "not counted" in found.remarks[0].text
    held = turbulence(EDGE, SHARE, TABLE, 0.1, contained=True)
    assert "already" in held.remarks[0].text
    assert turbulence(EDGE, SHARE, TABLE, 0.0, contained=False).remarks == ()
    assert in_turbulence(TABLE, 0.0) is TABLE


def test_no_power_is_made_of_nothing_by_turbulence() -> None:
    still = PowerTable(SPEED, np.zeros(81), 0.7, 3000.0)
    assert in_turbulence(still, 0.3).power.max() == 0.0
    never = PowerTable(SPEED, TABLE.power, 4.5, 3000.0)
    assert in_turbulence(never, 0.3).power.max() == 0.0


def test_availability_lists_what_the_climate_holds_already() -> None:
    found = availability((LostTime("season", 0.25, in_climate=True), stops("debris", 12.0, 8 * 3600.0)))
    assert found.share == pytest.approx(1.0 - 96.0 / 8760.0)
    assert found.whole == pytest.approx(0.75 * found.share)
    assert [cause.cause for cause in found.causes] == ["season", "debris"]
    assert availability(()).share == 1.0


def machines(count: int, **more: float) -> RiverShare:
    return river_share(ONE, count, 1.2, [9.0, 40.0], [6.0, 60.0], [0.4, 0.9], labels=("low water", "median"), **more)


def test_energy_goes_with_the_count_and_the_river_shares_are_told() -> None:
    one, three = machines(1), machines(3)
    assert (three.energy.low, three.energy.value, three.energy.high) == (2.4e10, 3.0e10, 3.6e10)
    assert one.energy.value == 1.0e10
    np.testing.assert_allclose(three.blockage, [0.4, 0.09])
    np.testing.assert_allclose(three.diversion, [0.2, 0.045])
    told = {r.about: r.severity for r in three.remarks}
    assert told == {"blockage": "warning", "diversion": "caution", "wakes": "caution"}
    assert "low water" in three.remarks[0].text
    near = {r.about: r.severity for r in machines(2, diameter=1.2, spacing=10.0).remarks}
    assert near["wakes"] == "warning"
    assert "wakes" not in {r.about for r in machines(2, diameter=1.2, spacing=20.0).remarks}


def test_one_small_machine_in_a_wide_river_says_nothing() -> None:
    assert river_share(ONE, 1, 1.2, [60.0], [90.0], [0.9], labels=("median",)).remarks == ()


@pytest.mark.parametrize(
    "make",
    [
        lambda: machines(0),
        lambda: machines(8),
        lambda: machines(2, diameter=1.2, spacing=np.nan),
        lambda: river_share(ONE, 1, np.nan, [9.0], [6.0], [0.4], labels=("low",)),
        lambda: river_share(ONE, 1, 1.2, [9.0], [np.nan], [0.4], labels=("low",)),
        lambda: river_share(ONE, 1, 1.2, [9.0], [6.0], [-0.4], labels=("low",)),
        lambda: river_share(ONE, 1, 1.2, [9.0, 3.0], [6.0], [0.4], labels=("low",)),
        lambda: EnergyCause("x", np.nan),
        lambda: LostTime("x", 1.2),
        lambda: stops("x", 1000.0, 1e5),
        lambda: stops("x", np.inf, 1.0),
        lambda: availability((LostTime("x", 0.1), LostTime("x", 0.2))),
        lambda: energy_band(EDGE, SHARE, TABLE, HIGH, LOW, ()),
        lambda: energy_band(EDGE, SHARE, TABLE, LOW[:-1], HIGH, ()),
        lambda: energy_band(EDGE, SHARE, TABLE, LOW, np.where(HIGH > 1e3, np.nan, HIGH), ()),
        lambda: turbulence(EDGE, SHARE, TABLE, 0.6, contained=False),
        lambda: turbulence(EDGE, SHARE, TABLE, np.nan, contained=False),
        lambda: in_turbulence(TABLE, 0.1, step=0.5),
    ],
)
def test_bad_arguments_are_refused(make) -> None:
    with pytest.raises(InputError):
        make()
