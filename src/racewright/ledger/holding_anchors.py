"""One anchor of a holding against its loads."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from racewright.errors import InputError, NoAnswerError
from racewright.holding.anchor_bank import BankTie
from racewright.holding.anchor_check import check_anchor
from racewright.holding.anchor_deadweight import Deadweight, submerged_weight
from racewright.holding.anchor_drag import DragAnchor
from racewright.holding.anchor_kinds import Anchor
from racewright.holding.anchor_proof import proof_load
from racewright.holding.anchor_result import AnchorLoad
from racewright.holding.anchor_rock import RockBolt
from racewright.holding.anchor_screw import ScrewAnchor
from racewright.holding.anchor_tables import bed_friction
from racewright.holding.stream import STANDARD_GRAVITY
from racewright.ledger.holding_findings import AnchorFound
from racewright.safety_factors import SafetyFactor, safety_factor, safety_factors
from racewright.uncertainty import Band

Table = Mapping[str, Any]

OWN_FACTOR = 2.0
"""On the holding of blocks and ties, for which the packaged standards give none. Own choice, no source [-]."""
_FACTOR = {"screw": "screw_usual", "rock": "ufc_fixed", "deadweight": "ufc_deadweight", "tie": "ufc_deadweight"}
_DRAG_FACTOR = {"stockless, fixed fluke": "ufc_drag_stockless", "light twin fluke": "ufc_drag_high_efficiency"}
_PROOF = {"deadweight": "deadweight", "drag": "drag", "screw": "screw", "rock": "rock_bolt", "tie": "bank_tie"}
_KINDS = tuple(_PROOF)


def anchor_found(
    name: str, table: Table, lines: tuple[str, ...], loads: Sequence[AnchorLoad], density: float
) -> AnchorFound:
    """The anchor's check and advice on its proof load; words where there is none.

    Parameters
    ----------
    name : str
    table : mapping
        Plain values of its scheme table.
    lines : tuple of str
        Lines that are made fast to it.
    loads : sequence of AnchorLoad
        Of all states; empty where no state settled.
    density : float
        Of the water [kg/m3].
    """
    kind = _kind(table)
    if not loads:
        return AnchorFound(name, kind, lines, math.nan, math.nan, "", None, None, "no load state settled")
    worst = max(loads, key=lambda load: pull_of(load, table))
    told = (name, kind, lines, worst.horizontal, worst.vertical, worst.case)
    if not kind:
        words = f"not described; write what it is, like [holding.NAME.anchor.{name.replace(' ', '_')}.deadweight]"
        return AnchorFound(*told, None, None, words)
    try:
        check = check_anchor(_anchor(kind, table[kind], density), loads, {"any": _factor(kind, table)})
        proof = proof_load(_PROOF[kind], loads)
    except NoAnswerError as fault:
        return AnchorFound(*told, None, None, str(fault))
    except InputError as fault:
        raise InputError(f"anchor '{name}': {fault.message}", key=fault.key) from None
    return AnchorFound(*told, check, proof, "")


def pull_of(load: AnchorLoad, table: Table) -> float:
    """What a load asks of the anchor of a scheme table; of one that is not described, the whole pull [N]."""
    kind = _kind(table)
    return load.pull(_PROOF[kind] if kind else "bank_tie")


def _kind(table: Table) -> str:
    """Key of the table that describes the anchor, '' without one."""
    return next((k for k in _KINDS if table[k] is not None), "")


def _factor(kind: str, table: Table) -> SafetyFactor:
    """Of the anchor's kind, or the user's own with its source."""
    key = _DRAG_FACTOR[table["drag"]["form"]] if kind == "drag" else _FACTOR[kind]
    own = table["factor"]
    if own is None and key != "ufc_deadweight":
        return safety_factor(key)
    source = "own choice, no source" if own is None else "given in the scheme"
    edit = {
        "factor": OWN_FACTOR if own is None else own,
        "source": source,
        "standard": source,
        "item": f"{kind} anchor",
        "conditions": "on ultimate holding",
        "edition": "none",
    }
    return safety_factor(key, safety_factors({key: edit}))


def _anchor(kind: str, t: Table, density: float) -> Anchor:
    if kind == "deadweight":
        weight = submerged_weight(t["mass"] / t["density"], t["density"], density)
        friction = (
            bed_friction(t["bed"]) if t["friction"] is None else _own(t["friction"], "given in the scheme", 0.0)
        )
        return Deadweight(weight, friction, slope=t["slope"])
    if kind == "drag":
        return DragAnchor(t["form"], t["bed"], t["mass"])
    if kind == "screw":
        plates = () if t["plate_diameter"] is None else (t["plate_diameter"],) * t["plates"]
        return ScrewAnchor(
            plates, t["cohesion"], overburden=t["overburden"], overburden_factor=t["overburden_factor"],
            torque=t["torque"], depth=t["depth"], shaft_angle=t["shaft_angle"],
        )  # fmt: skip
    if kind == "rock":
        weight = (t["rock_density"] - density) * STANDARD_GRAVITY
        return RockBolt(
            t["hole_diameter"], t["bond_length"], t["bond_strength"], t["bar_diameter"], t["bar_strength"], weight,
            count=t["count"], spacing=t["spacing"], bar_angle=t["bar_angle"],
            eye_height=t["eye_height"], bar_aside=t["bar_aside"], rock_shear=t["rock_shear"],
        )  # fmt: skip
    holding = None if t["holding"] is None else _own(t["holding"], "given in the scheme", t["spread"])
    return BankTie(t["what"], holding, "given in the scheme")


def _own(value: float, basis: str, spread: float) -> Band:
    return Band((1.0 - spread) * value, value, (1.0 + spread) * value, basis)
