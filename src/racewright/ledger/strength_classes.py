"""The dataclasses that strength's node values are made of."""

from __future__ import annotations

from racewright.ledger.strength_findings import (
    DuctStress,
    NaturalFrequencies,
    PlaceFatigue,
    RootStress,
    ShaftCase,
    StatePoint,
    Stresses,
)
from racewright.safety import SafetyBasis
from racewright.safety_factors import SafetyFactor
from racewright.strength.cycles import Cycles
from racewright.strength.damage import FatigueDamage
from racewright.strength.flange import BoltLoads
from racewright.strength.resonance import Meeting, Resonance
from racewright.strength.ring import RingLoads, RingPressure
from racewright.strength.ring_modes import RingModes
from racewright.strength.shaft import ShaftStress
from racewright.strength.sn_curves import SNCurve
from racewright.strength.span_modes import SpanModes
from racewright.strength.stress_check import StressCheck

STRENGTH_CLASSES: tuple[type, ...] = (
    BoltLoads, Cycles, DuctStress, FatigueDamage, Meeting, NaturalFrequencies, PlaceFatigue, Resonance, RingLoads,
    RingModes, RingPressure, RootStress, SNCurve, SafetyBasis, SafetyFactor, ShaftCase, ShaftStress, SpanModes,
    StatePoint, StressCheck, Stresses,
)  # fmt: skip
