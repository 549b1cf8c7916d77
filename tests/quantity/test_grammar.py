"""The quantity grammar: what it takes, what it refuses, and Pint as the cross-check of the table."""

from __future__ import annotations

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.quantity import DIMENSION_EXAMPLES, UNITS, parse


@pytest.mark.parametrize(
    ("text", "dimension", "si"),
    [
        ("1.2 m", "length", 1.2),
        ("1000 mm", "length", 1.0),
        ("1m", "length", 1.0),
        ("-3e1 cm", "length", -0.3),
        ("15 degC", "temperature", 288.15),
        ("60 rpm", "rotation", 2 * math.pi),
        ("4 %", "fraction", 0.04),
        ("35.5 ft3/s", "discharge", 35.5 * 0.3048**3),
        ("250 N m", "torque", 250.0),
        ("0.246 L/kWh", "fuel use", 0.246e-3 / 3.6e6),
        (".5 kW", "power", 500.0),
    ],
)
def test_reads(text: str, dimension: str, si: float) -> None:
    assert parse(text, dimension).si == pytest.approx(si, rel=1e-12)


def test_currency_label_is_kept() -> None:
    found = parse("1.6 EUR/L", "money per volume")
    assert (found.currency, found.si) == ("EUR", pytest.approx(1600.0))


BAD = (
    "1,5 m", "1; 2 m", "1 m; 2", "nan m", "inf m", "9**9 m", "1e999 m", "m", "", " ", "1 2 m", "1_000 m",
    "0x1 m", "1 m\n", "١ m", "1 m m", "1.2.3 m", "--1 m", "1 EUR/L", "1 kg", "1 M",
)  # fmt: skip


@pytest.mark.parametrize("text", BAD)
def test_refuses(text: str) -> None:
    with pytest.raises(ValueError, match=r"like '1\.2 m'"):
        parse(text, "length")


def test_decimal_comma_is_named() -> None:
    with pytest.raises(ValueError, match="decimal mark is a point"):
        parse("1,5 m", "length")


@given(st.text(max_size=40))
def test_any_text_parses_finite_or_says_why(text: str) -> None:
    assert _si_or_message(text)


def _si_or_message(text: str) -> bool:
    try:
        return math.isfinite(parse(text, "length").si)
    except ValueError as fault:
        return "'1.2 m'" in str(fault)


def test_every_example_parses_as_its_dimension() -> None:
    for dimension, example in DIMENSION_EXAMPLES.items():
        assert parse(example, dimension).dimension == dimension


_PINT_NAMES = {
    "in": "inch", "ft2": "ft**2", "cm2": "cm**2", "mm2": "mm**2", "m2": "m**2", "m3": "m**3", "ft3": "ft**3",
    "L": "liter", "m3/s": "m**3/s", "L/s": "liter/s", "ft3/s": "ft**3/s", "m3/h": "m**3/h", "kn": "knot",
    "nmi": "nautical_mile",
    "rpm": "rpm", "deg/s": "degree/s", "deg/h": "degree/h", "deg": "degree", "d": "day",
    "kg/m3": "kg/m**3", "g/cm3": "g/cm**3", "N m": "N*m", "kN m": "kN*m", "gal": "US_liquid_gallon",
    "m2/s": "m**2/s", "mm2/s": "mm**2/s", "m/s2": "m/s**2", "%": "percent", "L/kWh": "liter/kWh", "h": "hour",
    "gal/kWh": "US_liquid_gallon/kWh", "L/h": "liter/hour", "t": "tonne", "g": "gram", "kWh/d": "kWh/day",
    "km/h": "km/hour", "min": "minute", "lb": "pound", "1": "dimensionless",
    "V s": "V*s", "kg m2": "kg*m**2", "N m s": "N*m*s", "MN m": "MN*m",
}  # fmt: skip


@pytest.mark.parametrize("symbol", [s for s in UNITS if s not in ("yr", "kWh/yr", "MWh/yr")])
def test_table_agrees_with_pint(symbol: str) -> None:
    """Every factor but the energy year's (8760 h, ours by definition) equals the general converter's."""
    registry = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
    ours = 2.0 * UNITS[symbol].factor + UNITS[symbol].offset
    theirs = registry.Quantity(2.0, _PINT_NAMES.get(symbol, symbol)).to_base_units()
    if UNITS[symbol].dimension not in ("temperature", "fraction", "angle", "rotation"):
        theirs = theirs.to(_SI[UNITS[symbol].dimension])
    assert theirs.magnitude == pytest.approx(ours, rel=1e-12)


_SI = {
    "length": "m", "area": "m**2", "volume": "m**3", "discharge": "m**3/s", "speed": "m/s", "time": "s",
    "mass": "kg", "density": "kg/m**3", "line mass": "kg/m", "force": "N", "torque": "N*m", "pressure": "Pa",
    "power": "W", "energy": "J", "voltage": "V", "current": "A", "resistance": "ohm",
    "magnetic flux": "V*s", "inductance": "H", "inertia": "kg*m**2", "torque over speed": "N*m*s",
    "heat capacity": "J/K", "frequency": "1/s", "stiffness": "N/m",
    "kinematic viscosity": "m**2/s", "acceleration": "m/s**2", "fuel use": "m**3/J",
}  # fmt: skip


def test_equal_quantities_in_other_units_are_equal_to_the_last_bit() -> None:
    for one, other, dimension in (
        ("9 mm", "0.009 m", "length"),
        ("43 mm", "0.043 m", "length"),
        ("13.1 degC", "286.25 K", "temperature"),
        ("5.7 kW", "5700 W", "power"),
    ):
        assert parse(one, dimension).si == parse(other, dimension).si
