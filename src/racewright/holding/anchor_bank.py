"""Ties on the bank: deadman, rock bolt, tree or post, with a holding that the user states."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.errors import InputError
from racewright.holding.anchor_result import AnchorHolding, AnchorLimit, answered, refused
from racewright.remark import Remark
from racewright.safety import safety_basis
from racewright.uncertainty import Band


@dataclass(frozen=True, slots=True)
class BankTie:
    """Something on the bank that a line is made fast to. No number for it is known here.

    Attributes
    ----------
    what : str
        Such as 'deadman', 'tree', 'post'.
    holding : Band or None
        Load along the line that it bears, with the user's own range; None when nobody has said [N].
    source : str
        Who states it, and by what: a pull test, a design, a certificate.
    """

    what: str
    holding: Band | None
    source: str

    def __post_init__(self) -> None:
        if not self.what.strip():
            raise InputError("a bank tie wants a word for what it is, e.g. 'deadman'")
        if self.holding is None:
            return
        band = self.holding
        if not (0.0 < band.low <= band.value <= band.high < float("inf")):
            raise InputError(
                f"the holding of the {self.what} wants 0 < low <= value <= high in N, e.g. 20e3, 25e3, 30e3"
            )
        if not self.source.strip():
            raise InputError(f"the holding of the {self.what} has no source; say who states it, e.g. 'pull test'")


def bank_tie_holding(anchor: BankTie) -> AnchorHolding:
    """The user's own figure with its cautions, or a refusal."""
    remarks = [
        Remark(
            "caution",
            f"The holding of the {anchor.what} is the user's; no figure of ours stands behind it. A line across "
            "water or bank is a danger to boats, animals and people: mark it, and ask the owner of the bank.",
            "bank tie",
        )
    ]
    if "tree" in anchor.what.lower():
        remarks.append(
            Remark(
                "warning",
                "A tree is alive: it loosens, rots, is undercut by the flood it must serve in, and is harmed by "
                "lines without wide straps. Take it for short stays only.",
                "bank tie",
            )
        )
    if anchor.holding is None:
        safety = safety_basis("anchors", "nothing was stated", "none", "no number")
        return refused(
            "bank_tie", f"Nobody has stated what the {anchor.what} holds; pull-test it.", safety, tuple(remarks)
        )
    safety = safety_basis("anchors", f"stated by the user: {anchor.source}", "stated by the user", "user's own")
    return answered("bank_tie", (AnchorLimit("as stated", anchor.holding),), tuple(remarks), safety)
