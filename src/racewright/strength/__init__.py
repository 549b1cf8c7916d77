"""Strength: vane and blade roots, duct ring, shaft, flange, fatigue, natural frequencies, materials."""

from __future__ import annotations

from racewright.strength.beam_modes import beam_frequencies, even_beam_frequency
from racewright.strength.bending import bending_stress
from racewright.strength.cycles import rainflow_cycles
from racewright.strength.damage import miner_sum, rainflow_damage
from racewright.strength.duct_ring import duct_ring
from racewright.strength.flange import bolt_circle, bolt_loads
from racewright.strength.line_energy import stored_energy
from racewright.strength.materials import material, materials
from racewright.strength.resonance import resonance
from racewright.strength.ring import Ring, rectangular_ring, ring_loads, ring_pressure, tube_buckling_pressure
from racewright.strength.ring_modes import ring_modes
from racewright.strength.section_area import section_area
from racewright.strength.shaft import shaft_stress, shaft_torque
from racewright.strength.sn_curves import own_sn_curve, sn_curve
from racewright.strength.span_load import SpanLoad, centrifugal_pull, root_loads, row_span_load
from racewright.strength.span_modes import span_modes
from racewright.strength.stress_check import check_stress

__all__ = [
    "Ring",
    "SpanLoad",
    "beam_frequencies",
    "bending_stress",
    "bolt_circle",
    "bolt_loads",
    "centrifugal_pull",
    "check_stress",
    "duct_ring",
    "even_beam_frequency",
    "material",
    "materials",
    "miner_sum",
    "own_sn_curve",
    "rainflow_cycles",
    "rainflow_damage",
    "rectangular_ring",
    "resonance",
    "ring_loads",
    "ring_modes",
    "ring_pressure",
    "root_loads",
    "row_span_load",
    "section_area",
    "shaft_stress",
    "shaft_torque",
    "sn_curve",
    "span_modes",
    "stored_energy",
    "tube_buckling_pressure",
]
