"""What the reader of an open rotor's figures must be told."""

from __future__ import annotations

import numpy as np

from racewright.remark import Remark
from racewright.stage.bare_result import BareRotor, Flags
from racewright.stage.thin_row import LOW_REYNOLDS


def bare_remarks(found: BareRotor) -> tuple[Remark, ...]:
    """Remarks of an open rotor, each with the tip-speed ratios that it holds for."""
    remarks: list[Remark] = []
    ring = found.radius * np.gradient(found.radius)
    stalled = np.sum(found.stalled * ring, axis=1) > 0.25 * np.sum(ring)
    if np.any(found.beyond_reach):
        where = _range(found, found.beyond_reach)
        text = f"At tip-speed ratios {where} the water nearly stops in the rotor, past the data of the relation used."
        remarks.append(Remark("warning", text, "load"))
    elif np.any(found.turbulent_wake):
        where = _range(found, np.any(found.turbulent_wake, axis=1))
        text = (
            f"At tip-speed ratios {where} some radii are loaded past momentum theory; an empirical relation answers."
        )
        remarks.append(Remark("note", text, "load"))
    if np.any(stalled):
        text = f"At tip-speed ratios {_range(found, stalled)} over a quarter of the disc is stalled: a stated guess."
        remarks.append(Remark("warning", text, "stall"))
    outer = np.interp(0.7 * found.radius[-1], found.radius, np.min(found.reynolds, axis=0))
    if outer < LOW_REYNOLDS:
        text = f"Chord Reynolds number {outer:.2g} at 0.7 of the radius, below 2e5: drag is known within +-30 %."
        remarks.append(Remark("caution", text, "Reynolds number"))
    return tuple(remarks)


def _range(found: BareRotor, held: Flags) -> str:
    ratios = found.tip_speed_ratio[held]
    low, high = float(np.min(ratios)), float(np.max(ratios))
    return f"{low:.3g}" if low == high else f"{low:.3g} to {high:.3g}"
