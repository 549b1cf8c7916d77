"""The typed input file of one project."""

from racewright.scheme.load import LoadedScheme, load_scheme

__all__ = ["LoadedScheme", "load_scheme"]
