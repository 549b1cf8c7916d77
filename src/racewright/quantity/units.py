"""The table of units: for each symbol its dimension, factor to SI and offset."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Unit:
    """SI value = number x factor + offset.

    Attributes
    ----------
    dimension : str
        Name of the dimension, e.g. 'length'.
    factor : float
        SI units per unit.
    offset : float
        Added after the factor (temperatures only) [SI unit].
    """

    dimension: str
    factor: float
    offset: float = 0.0


_FOOT = 0.3048
_INCH = 0.0254
_POUND = 0.45359237
_HOUR = 3600.0
_DAY = 86400.0
_YEAR = 8760.0 * _HOUR  # the energy year of 8760 h
_LITRE = 1e-3
_US_GALLON = 231.0 * _INCH**3

UNITS: dict[str, Unit] = {
    # Length: SI unit m.
    "m": Unit("length", 1.0),
    "mm": Unit("length", 1e-3),
    "cm": Unit("length", 1e-2),
    "km": Unit("length", 1e3),
    "in": Unit("length", _INCH),
    "ft": Unit("length", _FOOT),
    "nmi": Unit("length", 1852.0),
    # Area: SI unit m2.
    "m2": Unit("area", 1.0),
    "cm2": Unit("area", 1e-4),
    "mm2": Unit("area", 1e-6),
    "ft2": Unit("area", _FOOT**2),
    # Volume: SI unit m3.
    "m3": Unit("volume", 1.0),
    "L": Unit("volume", _LITRE),
    "ft3": Unit("volume", _FOOT**3),
    "gal": Unit("volume", _US_GALLON),
    # Discharge: SI unit m3/s.
    "m3/s": Unit("discharge", 1.0),
    "L/s": Unit("discharge", _LITRE),
    "ft3/s": Unit("discharge", _FOOT**3),
    "m3/h": Unit("discharge", 1.0 / _HOUR),
    # Speed: SI unit m/s.
    "m/s": Unit("speed", 1.0),
    "cm/s": Unit("speed", 1e-2),
    "mm/s": Unit("speed", 1e-3),
    "km/h": Unit("speed", 1e3 / _HOUR),
    "ft/s": Unit("speed", _FOOT),
    "kn": Unit("speed", 1852.0 / _HOUR),
    # Time: SI unit s.
    "s": Unit("time", 1.0),
    "ms": Unit("time", 1e-3),
    "min": Unit("time", 60.0),
    "h": Unit("time", _HOUR),
    "d": Unit("time", _DAY),
    "yr": Unit("time", _YEAR),
    # Angle: SI unit rad and rotation speed in rad/s.
    "rad": Unit("angle", 1.0),
    "deg": Unit("angle", math.pi / 180.0),
    "rad/s": Unit("rotation", 1.0),
    "rpm": Unit("rotation", math.pi / 30.0),
    "deg/s": Unit("rotation", math.pi / 180.0),
    "deg/h": Unit("rotation", math.pi / 180.0 / _HOUR),
    # Mass: SI unit kg, density in kg/m3.
    "kg": Unit("mass", 1.0),
    "g": Unit("mass", 1e-3),
    "t": Unit("mass", 1e3),
    "lb": Unit("mass", _POUND),
    "kg/m3": Unit("density", 1.0),
    "g/cm3": Unit("density", 1e3),
    "kg/m": Unit("line mass", 1.0),
    # Force: SI unit N, torque in N m, pressure in Pa.
    "N": Unit("force", 1.0),
    "kN": Unit("force", 1e3),
    "MN": Unit("force", 1e6),
    "N m": Unit("torque", 1.0),
    "kN m": Unit("torque", 1e3),
    "MN m": Unit("torque", 1e6),
    "Pa": Unit("pressure", 1.0),
    "hPa": Unit("pressure", 1e2),
    "kPa": Unit("pressure", 1e3),
    "MPa": Unit("pressure", 1e6),
    "GPa": Unit("pressure", 1e9),
    "bar": Unit("pressure", 1e5),
    "mbar": Unit("pressure", 1e2),
    # Stiffness of springs and lines: SI unit N/m.
    "N/m": Unit("stiffness", 1.0),
    "kN/m": Unit("stiffness", 1e3),
    "MN/m": Unit("stiffness", 1e6),
    # Power: SI unit W, energy in J.
    "W": Unit("power", 1.0),
    "kW": Unit("power", 1e3),
    "MW": Unit("power", 1e6),
    "J": Unit("energy", 1.0),
    "kJ": Unit("energy", 1e3),
    "MJ": Unit("energy", 1e6),
    "Wh": Unit("energy", _HOUR),
    "kWh": Unit("energy", 1e3 * _HOUR),
    "MWh": Unit("energy", 1e6 * _HOUR),
    "kWh/d": Unit("power", 1e3 * _HOUR / _DAY),
    "kWh/yr": Unit("power", 1e3 * _HOUR / _YEAR),
    "MWh/yr": Unit("power", 1e6 * _HOUR / _YEAR),
    # Temperature: SI unit K.
    "K": Unit("temperature", 1.0),
    "degC": Unit("temperature", 1.0, 273.15),
    "degF": Unit("temperature", 5.0 / 9.0, 273.15 - 32.0 * 5.0 / 9.0),
    # Rates of sampling: SI unit Hz.
    "Hz": Unit("frequency", 1.0),
    "kHz": Unit("frequency", 1e3),
    # Fractions: SI unit -.
    "%": Unit("fraction", 1e-2),
    "1": Unit("fraction", 1.0),
    # electricity
    "V": Unit("voltage", 1.0),
    "kV": Unit("voltage", 1e3),
    "A": Unit("current", 1.0),
    "ohm": Unit("resistance", 1.0),
    "V s": Unit("magnetic flux", 1.0),
    "H": Unit("inductance", 1.0),
    "mH": Unit("inductance", 1e-3),
    # Turning and heating parts.
    "kg m2": Unit("inertia", 1.0),
    "N m s": Unit("torque over speed", 1.0),
    "J/K": Unit("heat capacity", 1.0),
    "kJ/K": Unit("heat capacity", 1e3),
    "MJ/K": Unit("heat capacity", 1e6),
    # Viscosity: SI unit m2/s, acceleration in m/s2.
    "m2/s": Unit("kinematic viscosity", 1.0),
    "mm2/s": Unit("kinematic viscosity", 1e-6),
    "m/s2": Unit("acceleration", 1.0),
    # Fuel use: SI unit m3/J: litres per kilowatt-hour.
    "L/kWh": Unit("fuel use", _LITRE / (1e3 * _HOUR)),
    "gal/kWh": Unit("fuel use", _US_GALLON / (1e3 * _HOUR)),
    "L/h": Unit("discharge", _LITRE / _HOUR),
}
"""Every unit symbol that a scheme or a data file may use. 'yr' is the energy year of 8760 h; 'gal' is the US gallon
(231 cubic inches, exact)."""

CURRENCY_PER: dict[str, float] = {
    "": 1.0,
    "/yr": 1.0,
    "/L": 1.0 / _LITRE,
    "/gal": 1.0 / _US_GALLON,
    "/kWh": 1.0 / (1e3 * _HOUR),
    "/MWh": 1.0 / (1e6 * _HOUR),
    "/h": 1.0 / _HOUR,
    "/kW": 1e-3,
    "/kW/yr": 1e-3,
    "/kg": 1.0,
    "/m": 1.0,
}
"""What may follow a three-letter currency label, with the factor to SI; '/yr' amounts stay per year."""

CURRENCY_DIMENSIONS: dict[str, str] = {
    "": "money",
    "/yr": "money per year",
    "/L": "money per volume",
    "/gal": "money per volume",
    "/kWh": "money per energy",
    "/MWh": "money per energy",
    "/h": "money per time",
    "/kW": "money per power",
    "/kW/yr": "money per power per year",
    "/kg": "money per mass",
    "/m": "money per length",
}

DIMENSION_EXAMPLES: dict[str, str] = {
    "length": "1.2 m",
    "area": "0.8 m2",
    "volume": "200 L",
    "discharge": "35 m3/s",
    "speed": "2.5 m/s",
    "time": "10 min",
    "angle": "12 deg",
    "rotation": "90 rpm",
    "mass": "450 kg",
    "density": "1000 kg/m3",
    "line mass": "2.2 kg/m",
    "force": "4 kN",
    "torque": "250 N m",
    "pressure": "101.3 kPa",
    "power": "5 kW",
    "energy": "20 kWh",
    "temperature": "12 degC",
    "frequency": "100 Hz",
    "stiffness": "40 kN/m",
    "fraction": "4 %",
    "voltage": "400 V",
    "current": "12 A",
    "resistance": "0.6 ohm",
    "magnetic flux": "4.2 V s",
    "inductance": "3 mH",
    "inertia": "12 kg m2",
    "torque over speed": "0.02 N m s",
    "heat capacity": "4 kJ/K",
    "kinematic viscosity": "1.1 mm2/s",
    "acceleration": "9.81 m/s2",
    "fuel use": "0.25 L/kWh",
    "money": "50000 EUR",
    "money per year": "3000 EUR/yr",
    "money per volume": "1.6 EUR/L",
    "money per energy": "0.04 EUR/kWh",
    "money per time": "0.5 EUR/h",
    "money per power": "900 EUR/kW",
    "money per power per year": "20 EUR/kW/yr",
    "money per mass": "6 EUR/kg",
    "money per length": "3 EUR/m",
}
"""What a right value looks like, for error messages."""
