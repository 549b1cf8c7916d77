"""Deadweights: closed forms, a search by brute force, directions, refusals."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.holding.anchor_deadweight import Deadweight, deadweight_holding, submerged_weight
from racewright.holding.anchor_tables import bed_friction
from racewright.uncertainty import Band

WEIGHT = 10e3


def band(value: float) -> Band:
    return Band(value, value, value, "test")


def held(slope: float, mu: float, azimuth: float, pull: str, horizontal: float, vertical: float) -> float:
    anchor = Deadweight(WEIGHT, band(mu), slope, azimuth, pull)  # type: ignore[arg-type]
    found = deadweight_holding(anchor, horizontal, vertical)
    assert found.ultimate is not None
    return found.ultimate.value


def test_flat_bed() -> None:
    """H = mu (W - V) along the load's own direction: at (3, 4) kN times l, 3 l = 0.5 (10 - 4 l)."""
    assert held(0.0, 0.5, 0.0, "along the bed", 1.0, 0.0) == pytest.approx(5e3, rel=1e-12)
    assert held(0.0, 0.5, 0.0, "along the bed", 3e3, 4e3) == pytest.approx(5e3, rel=1e-12)
    assert held(0.0, 0.5, 0.0, "along the bed", 0.0, 1.0) == pytest.approx(WEIGHT, rel=1e-7)


@pytest.mark.parametrize("azimuth", [0.0, math.pi])
def test_slope_along_the_bed(azimuth: float) -> None:
    """Downhill W (mu cos b - sin b), uphill W (mu cos b + sin b)."""
    b, mu = 0.2, 0.6
    sign = -1.0 if azimuth == 0.0 else 1.0
    wanted = WEIGHT * (mu * math.cos(b) + sign * math.sin(b))
    assert held(b, mu, azimuth, "along the bed", 1.0, 0.0) == pytest.approx(wanted, rel=1e-12)


def test_slope_level_pull() -> None:
    """A level pull downhill slides the block at W tan(phi - b), phi the friction angle."""
    b, mu = 0.2, 0.6
    wanted = WEIGHT * math.tan(math.atan(mu) - b)
    assert held(b, mu, 0.0, "horizontal", 1.0, 0.0) == pytest.approx(wanted, rel=1e-12)


@given(
    st.floats(0.0, 0.4),
    st.floats(0.05, 1.0),
    st.floats(-math.pi, math.pi),
    st.sampled_from(["along the bed", "horizontal"]),
    st.floats(0.0, 1.0),
    st.floats(0.0, 1.0),
)
def test_it_slides_where_forces_say(
    slope: float, mu: float, azimuth: float, pull: str, horizontal: float, lift: float
) -> None:
    """In vectors: at the load found, shear on the bed is friction times pressure; a little below it is less."""
    assume(math.tan(slope) < 0.98 * mu)
    assume(horizontal + lift > 0.05)
    total = held(slope, mu, azimuth, pull, horizontal, lift)
    normal = np.array([math.sin(slope), 0.0, math.cos(slope)])
    level = np.array([math.cos(azimuth), math.sin(azimuth), 0.0])
    if pull == "along the bed":
        downhill = np.array([math.cos(slope), 0.0, -math.sin(slope)])
        level = math.cos(azimuth) * downhill + math.sin(azimuth) * np.array([0.0, 1.0, 0.0])
    direction = (horizontal * level + lift * np.array([0.0, 0.0, 1.0])) / math.hypot(horizontal, lift)

    def excess(load: float) -> float:
        force = np.array([0.0, 0.0, -WEIGHT]) + load * direction
        pressing = -float(force @ normal)
        return float(np.linalg.norm(force + pressing * normal)) - mu * pressing

    assert excess(total) == pytest.approx(0.0, abs=2e-4 * WEIGHT)
    for part in (0.0, 0.3, 0.6, 0.9, 0.99):
        assert excess(part * total) < 1e-9 * WEIGHT


@given(st.floats(1e2, 1e7), st.floats(0.1, 10.0), st.floats(0.0, 1.0))
def test_holding_grows_with_weight_in_proportion(weight: float, scale: float, lift: float) -> None:
    one = deadweight_holding(Deadweight(weight, band(0.4)), 1.0, lift).ultimate
    other = deadweight_holding(Deadweight(scale * weight, band(0.4)), 1.0, lift).ultimate
    assert one is not None
    assert other is not None
    assert other.value == pytest.approx(scale * one.value, rel=1e-9)


@given(st.floats(0.0, 2.0), st.floats(0.0, 2.0))
def test_lift_never_helps(one: float, other: float) -> None:
    """The horizontal part held falls with the line's lift."""
    low, high = sorted((one, other))
    parts = [held(0.0, 0.5, 0.0, "along the bed", 1.0, lift) / math.hypot(1.0, lift) for lift in (low, high)]
    assert parts[1] <= parts[0] * (1.0 + 1e-12)


def test_pressing_down_is_not_credited() -> None:
    assert held(0.1, 0.5, 0.0, "along the bed", 1.0, -5.0) == held(0.1, 0.5, 0.0, "along the bed", 1.0, 0.0)


def test_it_tips_before_it_slides_when_pulled_high() -> None:
    """W base/2 = H height: 10 kN x 0.5 m / 1.5 m."""
    found = deadweight_holding(Deadweight(WEIGHT, band(0.6), base=1.0, pull_height=1.5), 1.0, 0.0)
    assert found.governs == "tips"
    assert found.ultimate is not None
    assert found.ultimate.value == pytest.approx(WEIGHT / 3.0)
    low = deadweight_holding(Deadweight(WEIGHT, band(0.6), base=1.0, pull_height=0.1), 1.0, 0.0)
    assert low.governs == "slides"


def test_lift_helps_to_tip_it() -> None:
    """H h + V base/2 = W base/2 along (1, 1): l (1.5 + 0.5) = 5 kN m."""
    found = deadweight_holding(Deadweight(WEIGHT, band(1.0), base=1.0, pull_height=1.5), 1.0, 1.0)
    tips = next(limit.load.value for limit in found.limits if limit.mode == "tips")
    assert tips == pytest.approx(math.sqrt(2.0) * 2500.0)


def test_tipping_on_a_slope_is_said_not_to_be_looked_at() -> None:
    found = deadweight_holding(Deadweight(WEIGHT, band(0.6), 0.1, base=1.0, pull_height=1.5), 1.0, 0.0)
    assert any("Tipping was not looked at" in remark.text for remark in found.remarks)


def test_a_slope_too_steep_is_refused() -> None:
    found = deadweight_holding(Deadweight(WEIGHT, band(0.3), 0.4), 1.0, 0.0)
    assert found.ultimate is None
    assert "without any pull" in found.reason
    assert any(remark.severity == "warning" for remark in found.remarks)


def test_low_friction_that_slides_by_itself_is_warned_of() -> None:
    found = deadweight_holding(Deadweight(WEIGHT, Band(0.2, 0.5, 0.6, "test"), 0.3), 1.0, 0.0)
    assert found.ultimate is not None
    assert found.ultimate.low == 0.0
    assert any("by itself" in remark.text for remark in found.remarks)


def test_basis_edition_and_caution_travel_with_it() -> None:
    found = deadweight_holding(Deadweight(WEIGHT, bed_friction("coarse sand")), 1.0, 0.0)
    assert found.safety.edition == "closed form"
    assert "from memory" in found.safety.basis
    assert "geotechnical engineer" in found.safety.caution


@pytest.mark.parametrize("value", [math.nan, math.inf, -1.0, 0.0])
def test_bad_weights(value: float) -> None:
    with pytest.raises(InputError, match="submerged weight"):
        Deadweight(value, band(0.5))
    with pytest.raises(InputError, match="volume"):
        submerged_weight(value, 2400.0, 1000.0)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"friction": band(math.nan)}, "friction"),
        ({"friction": band(-0.1)}, "friction"),
        ({"friction": Band(0.5, 0.4, 0.6, "")}, "low <= value <= high"),
        ({"slope": -0.1}, "slope"),
        ({"slope": math.nan}, "slope"),
        ({"pull_azimuth": math.inf}, "azimuth"),
        ({"base": 1.0}, "give both or neither"),
        ({"base": -1.0, "pull_height": 1.0}, "base"),
    ],
)
def test_bad_blocks(change: dict[str, object], words: str) -> None:
    with pytest.raises(InputError, match=words):
        Deadweight(**{"submerged_weight": WEIGHT, "friction": band(0.5), **change})  # type: ignore[arg-type]


def test_a_block_lighter_than_water_is_refused() -> None:
    with pytest.raises(InputError, match="density of the block"):
        submerged_weight(1.0, 500.0, 1000.0)


def test_unknown_bed() -> None:
    with pytest.raises(InputError, match=r"'jelly'.*smooth rock"):
        bed_friction("jelly")
