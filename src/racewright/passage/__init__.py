"""Fish and debris: who and what gets through the machine, and how."""

from __future__ import annotations

from racewright.passage.barotrauma import decompression
from racewright.passage.beside import beside_bare
from racewright.passage.crossing import RowCrossing, row_crossings
from racewright.passage.exposure import exposure
from racewright.passage.fish import fish_passage, flow_share
from racewright.passage.injury import injury
from racewright.passage.species import FishClass, fish_class, fish_classes
from racewright.passage.strike import strike
from racewright.passage.strike_chance import strike_chance

__all__ = [
    "FishClass",
    "RowCrossing",
    "beside_bare",
    "decompression",
    "exposure",
    "fish_class",
    "fish_classes",
    "fish_passage",
    "flow_share",
    "injury",
    "row_crossings",
    "strike",
    "strike_chance",
]
