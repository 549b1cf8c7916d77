"""Racewright: a workbench for makers of ducted two-row water turbines."""

__version__ = "0.1.0"
