"""The dataclasses that values of the neighbours' nodes are made of."""

from __future__ import annotations

from racewright.ledger.neighbours_findings import (
    DebrisFound,
    DriftFound,
    FishAt,
    FishBeside,
    FishFound,
    RiverFish,
    ScreenFound,
    SoundAt,
    TradeFound,
)
from racewright.passage.barotrauma import Decompression
from racewright.passage.beside import Beside, Contender, Difference
from racewright.passage.dose import Chance
from racewright.passage.exposure import Exposure
from racewright.passage.fate import Fate
from racewright.passage.fish import FishPassage
from racewright.passage.lines import ThroughLines
from racewright.passage.opening import Opening, RowOpening
from racewright.passage.screen import ScreenLoss
from racewright.passage.screen_option import ScreenOption
from racewright.passage.strain import Strains
from racewright.passage.strike_result import RowStrike, Strike
from racewright.passage.trade import TradeRow
from racewright.safety import SafetyBasis
from racewright.sound.level_result import SoundLevel, ThresholdRange, UncertaintyPart
from racewright.sound.published import PublishedLevel
from racewright.sound.source import Tone
from racewright.uncertainty.binomial import BinomialLimits

NEIGHBOURS_CLASSES: tuple[type, ...] = (
    Beside, BinomialLimits, Chance, Contender, DebrisFound, Decompression, Difference, DriftFound, Exposure, Fate,
    FishAt, FishBeside, FishFound, FishPassage, Opening, PublishedLevel, RiverFish, RowOpening, RowStrike,
    SafetyBasis, ScreenFound, ScreenLoss, ScreenOption, SoundAt, SoundLevel, Strains, Strike, ThresholdRange,
    ThroughLines, Tone, TradeFound, TradeRow, UncertaintyPart,
)  # fmt: skip
