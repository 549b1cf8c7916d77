"""The dataclasses that values of the holding's nodes are made of."""

from __future__ import annotations

from racewright.holding.anchor_check import AnchorCase, AnchorCheck
from racewright.holding.anchor_proof import ProofLoad
from racewright.holding.anchor_required import FactoredLoad, RequiredHolding
from racewright.holding.anchor_result import AnchorHolding, AnchorLimit, AnchorLoad
from racewright.holding.contact_table import ContactStiffness
from racewright.holding.debris_load import DebrisLoad
from racewright.holding.debris_release import Release
from racewright.holding.layout_lines import LineChoice
from racewright.holding.line_strum import Strum
from racewright.holding.log_draws import LogDraws
from racewright.holding.log_exceedance import LogExceedance, YearlyChance
from racewright.holding.safety import StrengthFactor
from racewright.holding.statics_low_water import LowWater
from racewright.holding.statics_result import Equilibrium, LineLoad, Mode, Reason, Stability
from racewright.holding.statics_sweep import Statics
from racewright.holding.statics_watch import WatchCircle
from racewright.holding.statics_worst import Utilisation, WorstLine
from racewright.holding.strike_blow import Blow, FirstBlow
from racewright.holding.strike_estimates import CodeEstimate
from racewright.holding.strike_figure import SafetyFigure
from racewright.holding.strike_fixed import HeldRow
from racewright.holding.strike_outcome import FrictionSensitivity, Outcome
from racewright.holding.strike_run import StrikeRun, Work
from racewright.holding.strike_touch import Touch
from racewright.holding.strike_two_phase import TwoPhase
from racewright.ledger.holding_findings import (
    AnchorFound,
    AtDepth,
    DebrisHeld,
    Held,
    HeldLoad,
    HoldingHelp,
    SizeProposal,
    StiffnessTrade,
)
from racewright.ledger.struck_findings import StruckBy, StruckYear
from racewright.safety import SafetyBasis
from racewright.safety_factors import SafetyFactor

HOLDING_CLASSES: tuple[type, ...] = (
    AnchorCase, AnchorCheck, AnchorFound, AnchorHolding, AnchorLimit, AnchorLoad, AtDepth, Blow, CodeEstimate,
    ContactStiffness, DebrisHeld, DebrisLoad, Equilibrium, FactoredLoad, FirstBlow, FrictionSensitivity, Held,
    HeldLoad, HeldRow, HoldingHelp, LineChoice, LineLoad, LogDraws, LogExceedance, LowWater, Mode, Outcome,
    ProofLoad, Reason, Release, RequiredHolding, SafetyBasis, SafetyFactor, SafetyFigure, SizeProposal,
    Stability, Statics, StiffnessTrade, StrengthFactor, StrikeRun, StruckBy, StruckYear, Strum, Touch, TwoPhase,
    Utilisation, WatchCircle, Work, WorstLine, YearlyChance,
)  # fmt: skip
