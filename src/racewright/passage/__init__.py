"""Fish and debris: who and what gets through the machine, and how."""

from __future__ import annotations

from racewright.passage.barotrauma import decompression
from racewright.passage.beside import bare_rotors, beside_bare
from racewright.passage.crossing import RowCrossing, row_crossings
from racewright.passage.debris import DebrisClass, debris_class, debris_classes
from racewright.passage.exposure import exposure
from racewright.passage.fate import DoseCount, fates
from racewright.passage.fish import fish_passage, flow_share
from racewright.passage.injury import injury
from racewright.passage.opening import opening
from racewright.passage.screen import Screen, screen_loss
from racewright.passage.screen_option import screen_option
from racewright.passage.species import FishClass, fish_class, fish_classes
from racewright.passage.strike import strike
from racewright.passage.strike_chance import strike_chance
from racewright.passage.trade import trade

__all__ = [
    "DebrisClass",
    "DoseCount",
    "FishClass",
    "RowCrossing",
    "Screen",
    "bare_rotors",
    "beside_bare",
    "debris_class",
    "debris_classes",
    "decompression",
    "exposure",
    "fates",
    "fish_class",
    "fish_classes",
    "fish_passage",
    "flow_share",
    "injury",
    "opening",
    "row_crossings",
    "screen_loss",
    "screen_option",
    "strike",
    "strike_chance",
    "trade",
]
