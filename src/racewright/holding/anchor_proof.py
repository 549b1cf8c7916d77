"""Advice on the load to which an anchor is pulled before a machine hangs on it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from racewright.errors import InputError
from racewright.holding.anchor_door import positive, within
from racewright.holding.anchor_result import AnchorLoad
from racewright.holding.anchor_tables import anchor_data
from racewright.remark import Remark
from racewright.safety import SafetyBasis, safety_basis


@dataclass(frozen=True, slots=True)
class ProofLoad:
    """Advice for a pull test.

    Attributes
    ----------
    load : float
        To be held along the line; across the bed for a drag anchor or a block whose line comes down to it [N].
    hold_time : float
        Without the anchor creeping [s].
    ratio : float
        Over the largest load without a factor [-].
    case : str
        The load case it comes from.
    possible : bool
        False when it would pass the strength that may be used in a test.
    remarks : tuple of Remark
    safety : SafetyBasis
    """

    load: float
    hold_time: float
    ratio: float
    case: str
    possible: bool
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def proof_load(
    kind: str, loads: Sequence[AnchorLoad], *, ratio: float | None = None, most: float | None = None
) -> ProofLoad:
    """Proof load of an anchor: a ratio times its largest load, whatever the limit state.

    Parameters
    ----------
    kind : {'deadweight', 'drag', 'screw', 'rock_bolt', 'bank_tie'}
    loads : sequence of AnchorLoad
        Without factors.
    ratio : float, optional
        0.8 to 3, the user's own in place of the packaged advice [-].
    most : float, optional
        What bar, chain and fittings may bear in a test, such as a chain's proof load, > 0 [N].
    """
    table = anchor_data()["proof"]
    if kind not in table:
        raise InputError(f"no kind of anchor is called '{kind}'; there are {', '.join(table)}")
    if not loads:
        raise InputError("a proof load wants one load case or more")
    row = table[kind]
    worst = max(loads, key=lambda load: load.pull(kind))
    used = row["ratio"] if ratio is None else within("the proof ratio", ratio, 0.8, 3.0, "", 1.5)
    load = used * worst.pull(kind)
    possible = most is None or load <= positive("the most that a test may use", most, "N", 100e3)
    remarks = [
        Remark(
            "caution",
            "A pull test loads a line until something gives: nobody in line with it or beside it, pull from afar, "
            "read from afar.",
            "pull test",
        )
    ]
    if not possible and most is not None:
        remarks.append(
            Remark(
                "warning",
                f"The proof load of {load / 1e3:.1f} kN passes the {most / 1e3:.1f} kN that bar, chain and fittings "
                "may bear in a test: they are too weak for this anchor's loads.",
                "pull test",
            )
        )
    own = row["source"] if ratio is None else "the user's own ratio"
    status = row["status"] if ratio is None else "user's own"
    safety = safety_basis("anchors", own, anchor_data()["edition"] if ratio is None else "stated by the user", status)
    return ProofLoad(load, 60.0 * row["minutes"], used, worst.case, possible, tuple(remarks), safety)
