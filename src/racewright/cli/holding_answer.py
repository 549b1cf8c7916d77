"""From a holding's findings to what is printed."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from math import isfinite
from typing import Any

import numpy as np

from racewright.cli.holding_printed import (
    AnchorTold,
    Extremes,
    HoldingPrinted,
    OutcomeTold,
    Poses,
    SizesTold,
    StrikesPrinted,
    StrikeTold,
    TethersPrinted,
    YearTold,
)
from racewright.holding.statics_sweep import Statics
from racewright.holding.statics_table import StaticsTable
from racewright.ledger.holding_carried import POSE, SEARCHED, STIFFNESS, TENSION
from racewright.ledger.holding_findings import Held
from racewright.ledger.holding_parts import HoldingFindings
from racewright.ledger.holding_worst import worst_by_state
from racewright.ledger.struck_findings import StruckBy, StruckYear, YearChances


def holding_printed(found: HoldingFindings) -> HoldingPrinted:
    """Both, for the dossier's JSON."""
    return HoldingPrinted(tethers_printed(found), strikes_printed(found))


def tethers_printed(found: HoldingFindings) -> TethersPrinted:
    """How the machine is held, ready for JSON."""
    held = found.held
    first = held.depths[0]
    sizes = None if found.help is None else SizesTold(found.help, (TENSION, SEARCHED))
    whole = TethersPrinted(
        name=found.name,
        invented=found.invented,
        states=tuple(f"{one.name}: {one.words}" for one in found.loads),
        by_state=worst_by_state(held),
        worst=held.worst,
        factors=held.factors,
        extremes=_extremes(held),
        poses=tuple(poses(one.intact, one.label, one.depth) for one in held.depths),
        lost=tuple(poses(table, first.label, first.depth) for table in held.lost),
        watch=held.watch,
        low_water=held.low_water,
        anchors=tuple(AnchorTold(one, TENSION) for one in found.anchors),
        debris=found.debris,
        sizes=sizes,
        remarks=held.remarks,
    )
    printed: TethersPrinted = finite(whole)
    return printed


def _extremes(held: Held) -> Extremes:
    return Extremes(
        held.cover, held.bed_clearance, held.roll, held.cover_wanted, held.bed_clearance_wanted, held.roll_wanted,
        held.lowest_water, held.worst_pose, POSE,
    )  # fmt: skip


def poses(table: Statics, label: str, depth: float) -> Poses:
    """The arrays of a sweep without its single points."""
    kept = {f.name: getattr(table, f.name) for f in fields(StaticsTable)}
    return Poses(label=label, depth=depth, safety=(POSE, table.safety), **kept)


def strikes_printed(found: HoldingFindings) -> StrikesPrinted:
    """What strikes the machine, ready for JSON."""
    year = None if found.year is None else _year(found.year)
    whole = StrikesPrinted(found.name, found.invented, tuple(_strike(one) for one in found.struck), year)
    printed: StrikesPrinted = finite(whole)
    return printed


def _strike(one: StruckBy) -> StrikeTold:
    phases = one.phases
    return StrikeTold(
        name=one.name,
        log_mass=one.log_mass,
        machine_mass=one.machine_mass,
        stream_speed=one.stream_speed,
        tether_stiffness=one.tether_stiffness,
        pretension=one.pretension,
        capacity=one.capacity,
        water=one.water,
        depth=one.depth,
        over=one.over,
        first_blow=None if phases is None else phases.first,
        slow_tension=None if phases is None else phases.slow_tension,
        slow_time=None if phases is None else phases.slow_time,
        parts=None if phases is None else phases.parts,
        outcomes=tuple(
            OutcomeTold(
                o.friction,
                o.ending,
                o.time_to_clear,
                o.touches,
                o.touch_time,
                o.slow_tension,
                o.shift,
                o.yaw,
                o.safety,
            )
            for o in one.frictions.outcomes
        ),
        depends_on_friction=one.frictions.depends,
        time_per_friction=one.frictions.time_per_friction,
        beside_fixed=one.beside_fixed,
        estimates=one.estimates,
        safety=STIFFNESS,
    )


def _year(year: StruckYear) -> YearTold:
    kept = {f.name: getattr(year, f.name) for f in fields(YearChances)}
    return YearTold(safety=year.drawn.safety, **kept)


def finite(value: Any) -> Any:
    """The same with None for every number that is not finite; arrays that hold such become lists."""
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{f.name: finite(getattr(value, f.name)) for f in fields(value)})
    if isinstance(value, tuple):
        return tuple(finite(item) for item in value)
    if isinstance(value, np.ndarray) and value.dtype.kind == "f" and not np.isfinite(value).all():
        return finite(tuple(value.tolist())) if value.ndim == 1 else tuple(finite(row) for row in value)
    if isinstance(value, float) and not isfinite(value):
        return None
    return value
