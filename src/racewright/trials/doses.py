"""Debris doses: known pieces let go upstream, and what became of each."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from racewright.errors import InputError
from racewright.record_rules import check_piece

Outcome = Literal["passed", "struck and passed", "lodged", "missed the duct"]
Place = Literal["none", "inlet", "vane row", "rotor", "between rows", "behind the rotor"]
Clearing = Literal["not needed", "by itself", "rotor stopped", "rotor reversed", "by hand", "not cleared"]


@dataclass(frozen=True)
class DoseCard:
    """What is let go in one dose.

    Attributes
    ----------
    name : str
        Of the card; outcomes refer to it.
    kind : str
        E.g. 'stick', 'leaf', 'weed', 'nut'.
    length, width, thickness : float
        Largest, middle and smallest size of a piece [m].
    wet_density : float
        After soaking [kg/m3].
    count : int
        Pieces let go [-].
    upstream : float
        How far ahead of the duct's lip they were let go [m].
    off_axis, below_surface : float
        Where, sideways from the axis and down from the surface [m].
    """

    name: str
    kind: str
    length: float
    width: float
    thickness: float
    wet_density: float
    count: int
    upstream: float
    off_axis: float = 0.0
    below_surface: float = 0.0

    def __post_init__(self) -> None:
        """Refuse a piece that cannot be."""
        sizes = (self.length, self.width, self.thickness)
        if not all(math.isfinite(s) and s > 0.0 for s in sizes) or not sizes[0] >= sizes[1] >= sizes[2]:
            raise InputError(
                f"dose {self.name!r}: length, width and thickness are {sizes}; wanted falling sizes above 0 in m"
            )
        if not (math.isfinite(self.wet_density) and 10.0 < self.wet_density < 20000.0):
            raise InputError(f"dose {self.name!r}: wet density is {self.wet_density!r} kg/m3; wanted e.g. 950")
        if self.count < 1:
            raise InputError(f"dose {self.name!r}: {self.count} pieces; wanted 1 or more")
        if not (math.isfinite(self.upstream) and self.upstream > 0.0):
            raise InputError(f"dose {self.name!r}: let go {self.upstream!r} m upstream; wanted a distance above 0")
        if not (math.isfinite(self.off_axis) and math.isfinite(self.below_surface) and self.below_surface >= 0.0):
            raise InputError(f"dose {self.name!r}: release place wants finite numbers, depth 0 or more")


@dataclass(frozen=True)
class Piece:
    """What became of one piece.

    Attributes
    ----------
    dose : str
        Name of its card.
    outcome : {'passed', 'struck and passed', 'lodged', 'missed the duct'}
        'struck' is a seen or heard blow, of a vane or a blade.
    where : {'none', 'inlet', 'vane row', 'rotor', 'between rows', 'behind the rotor'}
        Where it was struck or lodged; 'none' where neither.
    cleared : {'not needed', 'by itself', 'rotor stopped', 'rotor reversed', 'by hand', 'not cleared'}
        How a lodged piece came out.
    held : float
        How long a lodged piece stayed [s].
    """

    dose: str
    outcome: Outcome
    where: Place = "none"
    cleared: Clearing = "not needed"
    held: float = 0.0

    def __post_init__(self) -> None:
        """Refuse words off the list and stories that contradict themselves."""
        check_piece(self.dose, self.outcome, self.where, self.cleared, self.held)


@dataclass(frozen=True)
class DoseRow:
    """One card's outcomes, counted. Shares are of the pieces that entered the duct.

    Attributes
    ----------
    card : DoseCard
    seen : int
        Pieces whose fate was noted [-].
    unseen : int
        Pieces let go and not noted [-].
    missed : int
        Pieces that went past the duct [-].
    passed, struck, lodged : int
        Of the rest: untouched, struck and passed, lodged [-].
    struck_vanes, struck_rotor, lodged_vanes, lodged_rotor, lodged_elsewhere : int
        By row [-].
    by_itself, by_stopping, by_reversing, by_hand, not_cleared : int
        How lodged pieces came out [-].
    longest_held : float
        [s]
    """

    card: DoseCard
    seen: int
    unseen: int
    missed: int
    passed: int
    struck: int
    lodged: int
    struck_vanes: int
    struck_rotor: int
    lodged_vanes: int
    lodged_rotor: int
    lodged_elsewhere: int
    by_itself: int
    by_stopping: int
    by_reversing: int
    by_hand: int
    not_cleared: int
    longest_held: float

    @property
    def entered(self) -> int:
        """Pieces that entered the duct [-]."""
        return self.seen - self.missed


def dose_table(cards: Sequence[DoseCard], pieces: Sequence[Piece]) -> tuple[DoseRow, ...]:
    """Count outcomes by card, in the cards' order.

    Raises
    ------
    InputError
        Two cards of one name, a piece of an unknown card, more pieces than a card let go.
    """
    names = [c.name for c in cards]
    if len(set(names)) != len(names):
        raise InputError("two dose cards share a name; every card needs its own")
    for piece in pieces:
        if piece.dose not in names:
            raise InputError(f"a piece belongs to dose {piece.dose!r}; there are cards {', '.join(names) or 'none'}")
    return tuple(_row(card, [p for p in pieces if p.dose == card.name]) for card in cards)


def _row(card: DoseCard, own: Sequence[Piece]) -> DoseRow:
    if len(own) > card.count:
        raise InputError(f"dose {card.name!r}: {len(own)} pieces noted but {card.count} let go")
    lodged = [p for p in own if p.outcome == "lodged"]
    struck = [p for p in own if p.outcome == "struck and passed"]

    def cleared(how: Clearing) -> int:
        return sum(p.cleared == how for p in lodged)

    return DoseRow(
        card=card,
        seen=len(own),
        unseen=card.count - len(own),
        missed=sum(p.outcome == "missed the duct" for p in own),
        passed=sum(p.outcome == "passed" for p in own),
        struck=len(struck),
        lodged=len(lodged),
        struck_vanes=sum(p.where == "vane row" for p in struck),
        struck_rotor=sum(p.where == "rotor" for p in struck),
        lodged_vanes=sum(p.where == "vane row" for p in lodged),
        lodged_rotor=sum(p.where == "rotor" for p in lodged),
        lodged_elsewhere=sum(p.where not in ("vane row", "rotor") for p in lodged),
        by_itself=cleared("by itself"),
        by_stopping=cleared("rotor stopped"),
        by_reversing=cleared("rotor reversed"),
        by_hand=cleared("by hand"),
        not_cleared=cleared("not cleared"),
        longest_held=max((p.held for p in lodged), default=0.0),
    )
