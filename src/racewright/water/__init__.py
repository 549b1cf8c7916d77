"""Density, viscosity and vapour pressure of fresh and sea water."""

from __future__ import annotations

from racewright.water.state import Water, properties, properties_at

__all__ = ["Water", "properties", "properties_at"]
