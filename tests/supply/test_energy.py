"""Yearly energy: conservation, bands, shares, refusals, order."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.supply.curve import cut
from racewright.supply.density import bin_slopes
from racewright.supply.energy import yearly_energy

YEAR = 8760.0 * 3600.0
SPEED = np.array([0.0, 0.5, 1.0, 2.0, 3.0])
POWER = np.array([0.0, 0.0, 300.0, 2400.0, 2400.0])
EDGE = np.array([0.0, 0.4, 1.0, 1.5, 2.5, 3.0])
SHARE = np.array([0.1, 0.2, 0.3, 0.3, 0.1])


def year(**changes):
    given_ = {
        "climate_edges": EDGE,
        "climate_share": SHARE,
        "power_speed": SPEED,
        "power": POWER,
        "availability": 1.0,
        "rated_power": 2400.0,
        "cut_in_speed": 0.5,
    } | changes
    names = ("climate_edges", "climate_share", "power_speed", "power")
    arrays = [given_.pop(name) for name in names]
    return yearly_energy(*arrays, **given_)


@st.composite
def climates(draw):
    bins = draw(st.integers(1, 12))
    steps = draw(st.lists(st.floats(0.05, 0.6), min_size=bins, max_size=bins))
    raw = np.array(draw(st.lists(st.floats(0.0, 1.0), min_size=bins, max_size=bins)))
    raw[draw(st.integers(0, bins - 1))] += 0.1
    return np.concatenate([[0.0], np.cumsum(steps)]), raw / raw.sum()


@given(climates())
def test_density_keeps_each_share_and_is_never_negative(climate):
    edge, share = climate
    pieces = cut(edge, share, SPEED, 0.5)
    assert pieces.density_start.min() >= -1e-12
    assert pieces.density_end.min() >= -1e-12
    shares = 0.5 * (pieces.end - pieces.start) * (pieces.density_start + pieces.density_end)
    np.testing.assert_allclose(np.bincount(pieces.bin, weights=shares), share, atol=1e-12)


@given(climates())
def test_energy_is_between_the_ends_of_the_curve_in_each_bin(climate):
    edge, share = climate
    got = year(climate_edges=edge, climate_share=share)
    assert (got.energy >= -1e-6).all()
    assert (got.power <= 2400.0 * (1 + 1e-12)).all()
    assert got.total.value == pytest.approx(np.sum(got.energy), rel=1e-12)
    np.testing.assert_allclose(got.energy, got.share * got.power * YEAR, rtol=1e-9, atol=1e-3)
    assert got.mean_power == pytest.approx(got.total.value / YEAR)
    assert got.capacity_factor == pytest.approx(got.mean_power / 2400.0)
    assert 0.0 <= got.share_below_cut_in + got.share_rated <= 1.0 + 1e-9


@given(climates(), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_band_is_ordered_and_availability_scales(climate, half, availability):
    edge, share = climate
    got = year(
        climate_edges=edge,
        climate_share=share,
        availability=availability,
        power_low=POWER * (1.0 - half),
        power_high=POWER * (1.0 + half),
    )
    assert got.total.low <= got.total.value <= got.total.high
    full = year(climate_edges=edge, climate_share=share)
    assert got.total.value == pytest.approx(availability * full.total.value, rel=1e-12, abs=1e-9)
    assert got.total.low == pytest.approx((1.0 - half) * got.total.value, rel=1e-9, abs=1e-6)
    np.testing.assert_array_equal(got.power, full.power)


@given(st.floats(0.0, 1.5), st.floats(0.0, 1.5))
def test_a_later_cut_in_never_gives_more(one, other):
    early, late = sorted((one, other))
    assert year(cut_in_speed=late).total.value <= year(cut_in_speed=early).total.value + 1e-6
    assert year(cut_in_speed=late).share_below_cut_in >= year(cut_in_speed=early).share_below_cut_in - 1e-12


def test_uniform_year_by_hand():
    """Density 1/3 from 0 to 3 m/s: mean (0.5 x 150 + 1 x 1350 + 1 x 2400) / 3 = 1275 W, whatever the bins."""
    for count in (1, 3, 7, 50):
        edge = np.linspace(0.0, 3.0, count + 1)
        got = year(climate_edges=edge, climate_share=np.full(count, 1.0 / count))
        assert got.mean_power == pytest.approx(1275.0, rel=1e-12)
        assert got.share_below_cut_in == pytest.approx(0.5 / 3.0, rel=1e-12)
        assert got.share_rated == pytest.approx(1.0 / 3.0, rel=1e-12)


def test_triangular_year_by_hand():
    """A straight density is kept straight in every bin: exact at any width. Density 2 v / 9 from 0 to 3 m/s
    with power 800 v: the mean is 800 x 2 m/s = 1600 W."""
    for count in (2, 3, 10):
        edge = np.linspace(0.0, 3.0, count + 1)
        got = year(
            climate_edges=edge,
            climate_share=np.diff(edge**2) / 9.0,
            power_speed=np.array([0.0, 3.0]),
            power=np.array([0.0, 2400.0]),
            cut_in_speed=0.0,
        )
        assert got.mean_power == pytest.approx(1600.0, rel=1e-12)


def test_second_order_or_better_in_bin_width():
    """A smooth year 1 - cos over 0 to 3 m/s: halving the bins divides the error by four or more."""
    speed = np.linspace(0.0, 3.0, 3001)
    power = 2400.0 * (speed / 3.0) ** 3

    def mean(count):
        edge = np.linspace(0.0, 3.0, count + 1)
        below = (edge - np.sin(2.0 * np.pi * edge / 3.0) * 3.0 / (2.0 * np.pi)) / 3.0
        share = np.diff(below)
        return year(
            climate_edges=edge, climate_share=share, power_speed=speed, power=power, cut_in_speed=0.0
        ).mean_power

    density = (1.0 - np.cos(2.0 * np.pi * speed / 3.0)) / 3.0
    exact = float(np.trapezoid(power * density, speed))
    errors = [abs(mean(n) - exact) for n in (8, 16, 32, 64)]
    orders = np.log2(np.array(errors[:-1]) / errors[1:])
    assert errors[0] < 0.01 * exact
    assert orders.min() > 1.9


def test_unlike_widths_and_a_peak():
    """A bin at a peak stays flat; the slope beside it does not overshoot its neighbour."""
    edge, share = np.array([0.0, 0.5, 1.5, 2.0]), np.array([0.1, 0.8, 0.1])
    slope = bin_slopes(edge, share)
    assert slope[1] == 0.0
    assert slope[0] > 0.0 > slope[2]


def test_a_bin_with_next_to_no_time_shows_its_power():
    """A share so small that its digits are gone must not scale the power in the bin."""
    edge = np.array([0.0, 2.0, 2.875, 2.96875])
    for tiny in (5e-324, 3e-322, 1.4472e-313):
        got = year(climate_edges=edge, climate_share=np.array([0.5, 0.5, tiny]))
        assert got.power[2] == pytest.approx(2400.0, rel=1e-14)


def test_a_bin_without_time_still_shows_its_power():
    share = np.array([0.5, 0.0, 0.5, 0.0, 0.0])
    got = year(climate_share=share)
    assert got.power[4] == pytest.approx(2400.0)
    assert got.energy[4] == 0.0


def test_time_beyond_the_curve_is_remarked_and_makes_nothing():
    got = year(power_speed=SPEED[:4], power=POWER[:4], power_low=POWER[:4], power_high=POWER[:4])
    assert [r.about for r in got.remarks] == ["power curve"]
    assert got.energy[-1] == 0.0
    assert "2 m/s" in got.remarks[0].text


def test_no_band_is_said():
    assert [r.about for r in year().remarks] == ["band"]
    assert year().total.basis == "power curve as given, no band"
    assert year(power_low=POWER, power_high=POWER).remarks == ()


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"climate_edges": EDGE[:-1]}, "one edge more"),
        ({"climate_edges": EDGE[::-1]}, "growing"),
        ({"climate_edges": EDGE - 1.0}, "0 or more"),
        ({"climate_edges": np.where(EDGE == 1.0, np.nan, EDGE)}, "finite"),
        ({"climate_share": SHARE * 0.9}, "1 in all"),
        ({"climate_share": np.array([0.3, -0.2, 0.4, 0.4, 0.1])}, "0 or more"),
        ({"climate_share": np.array([np.nan, 0.2, 0.3, 0.3, 0.1])}, "sum to"),
        ({"power_speed": SPEED[::-1]}, "growing"),
        ({"power_speed": np.array([1.0]), "power": np.array([1.0])}, "two or more"),
        ({"power": POWER[:-1]}, "power wants 5"),
        ({"power": np.where(SPEED == 2.0, np.inf, POWER)}, "finite"),
        ({"power": -POWER}, "0 or more"),
        ({"power_low": POWER + 1.0}, "crossed"),
        ({"power_high": POWER * 0.9}, "crossed"),
        ({"availability": 1.2}, "availability"),
        ({"availability": np.nan}, "availability"),
        ({"rated_power": 0.0}, "rated power"),
        ({"cut_in_speed": -0.1}, "cut-in"),
        ({"cut_in_speed": np.nan}, "cut-in"),
    ],
)
def test_refusals(changes, words):
    with pytest.raises(InputError, match=words):
        year(**changes)
