"""Every kind of anchor by one question: what does it bear in the direction of this load?"""

from __future__ import annotations

from racewright.holding.anchor_bank import BankTie, bank_tie_holding
from racewright.holding.anchor_deadweight import Deadweight, deadweight_holding
from racewright.holding.anchor_drag import DragAnchor, drag_holding
from racewright.holding.anchor_result import AnchorHolding, AnchorLoad
from racewright.holding.anchor_rock import RockBolt, rock_bolt_holding
from racewright.holding.anchor_screw import ScrewAnchor, screw_holding

Anchor = Deadweight | DragAnchor | ScrewAnchor | RockBolt | BankTie
_KINDS: dict[type[Anchor], str] = {
    Deadweight: "deadweight", DragAnchor: "drag", ScrewAnchor: "screw", RockBolt: "rock_bolt", BankTie: "bank_tie",
}  # fmt: skip


def kind_of(anchor: Anchor) -> str:
    """'deadweight', 'drag', 'screw', 'rock_bolt' or 'bank_tie'."""
    return _KINDS[type(anchor)]


def anchor_holding(anchor: Anchor, load: AnchorLoad) -> AnchorHolding:
    """What `anchor` bears in the direction of `load`, before any safety factor."""
    match anchor:
        case Deadweight():
            return deadweight_holding(anchor, load.horizontal, load.vertical)
        case DragAnchor():
            return drag_holding(anchor, load.horizontal, load.vertical)
        case ScrewAnchor():
            return screw_holding(anchor, load.horizontal, load.vertical)
        case RockBolt():
            return rock_bolt_holding(anchor, load.horizontal, load.vertical)
        case BankTie():
            return bank_tie_holding(anchor)
