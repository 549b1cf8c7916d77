"""Numbers as the reader sees them."""

from __future__ import annotations

import math

import pytest

from racewright.dossier import format as fmt
from racewright.uncertainty import Band
from tests.bands import relative_band

T = fmt.THIN
KWH = 3.6e6


@pytest.mark.parametrize(
    ("value", "scales", "digits", "text"),
    [
        (3900.0, fmt.POWER, 3, f"3.90{T}kW"),
        (999.7, fmt.POWER, 3, f"1.00{T}kW"),
        (999.0, fmt.POWER, 3, f"999{T}W"),
        (2.4e6, fmt.POWER, 2, f"2.4{T}MW"),
        (0.0, fmt.POWER, 3, f"0{T}W"),
        (850 * KWH, fmt.ENERGY, 3, f"850{T}kWh"),
        (12900 * KWH, fmt.ENERGY, 3, f"12.9{T}MWh"),
        (0.31 / KWH, fmt.per_energy("EUR"), 2, f"0.31{T}EUR/kWh"),
        (2100.0, fmt.per_fuel("EUR"), 3, f"2.10{T}EUR/L"),
        (0.31e-3 / KWH, fmt.FUEL_USE, 3, f"0.310{T}L/kWh"),
        (10.0, fmt.ROTATION, 3, f"95.5{T}rpm"),
        (math.radians(-41.0), fmt.ANGLE, 2, "\u221241°"),
        (0.29, fmt.SHARE, 2, f"29{T}%"),
        (12345.6, fmt.money("EUR"), 3, f"12{T}346{T}EUR"),
        (1234567.0, fmt.NONE, 3, f"1{T}234{T}567"),
        (0.12, fmt.SMALL_LENGTH, 3, f"120{T}mm"),
        (math.nan, fmt.POWER, 3, "not known"),
        (-math.inf, fmt.POWER, 3, "not known"),
    ],
)
def test_quantity(value: float, scales: tuple[fmt.Scale, ...], digits: int, text: str) -> None:
    assert fmt.quantity(value, scales, digits) == text


def test_minus_zero_has_no_sign() -> None:
    assert fmt.number(-0.001, 2) == "0.00"


def test_band_of_a_quarter_keeps_the_digits_that_it_deserves() -> None:
    text = fmt.band(relative_band(3893.0, 0.25, ""), fmt.POWER)
    assert text.both == f"3.9{T}kW (2.9 to 4.9{T}kW)"


def test_band_across_nought_has_its_signs() -> None:
    text = fmt.band(Band(-1850.0, -420.0, 1010.0, ""), fmt.money("EUR"))
    assert text.both == f"\u2212400{T}EUR (\u22121800 to 1000{T}EUR)"


def test_band_cut_at_both_ends_is_at_the_cap() -> None:
    assert fmt.band(Band(5.0, 5.0, 5.0, ""), fmt.POWER).both == f"5.00{T}W (at the cap)"
    money = fmt.band(Band(338248.0, 338248.0, 338248.0, ""), fmt.money("EUR"))
    assert money.both == f"338{T}000{T}EUR (at the cap)"


def test_band_of_nothing_has_no_range() -> None:
    assert fmt.band(Band(0.0, 0.0, 0.0, ""), fmt.ENERGY).both == f"0{T}kWh (no range)"


def test_band_that_is_not_finite_is_not_known() -> None:
    assert fmt.band(Band(0.0, 1.0, math.inf, ""), fmt.POWER).value == "not known"


def test_narrow_band_of_a_large_value_does_not_invent_digits() -> None:
    assert fmt.band(Band(9999.9, 10000.0, 10000.1, ""), fmt.NONE).value == f"10{T}000"
