"""Text with units to SI floats."""

from racewright.quantity.grammar import parse
from racewright.quantity.units import DIMENSION_EXAMPLES, UNITS

__all__ = ["DIMENSION_EXAMPLES", "UNITS", "parse"]
