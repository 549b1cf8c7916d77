"""Density, viscosity and vapour pressure of fresh and sea water."""

from __future__ import annotations

from racewright.water.state import Water, properties

__all__ = ["Water", "properties"]
