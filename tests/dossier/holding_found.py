"""Findings of an invented holding, made of the samples: no node is run."""

from __future__ import annotations

from functools import cache

import numpy as np

from racewright.holding import low_water
from racewright.holding.anchor_proof import proof_load
from racewright.holding.debris_held import held_trunk
from racewright.holding.debris_release import RetainingLine, WeakLink, release
from racewright.holding.layout_lines import line_choices
from racewright.holding.log_body import Log
from racewright.holding.strike_estimates import code_estimates
from racewright.holding.strike_fixed import beside_fixed
from racewright.holding.strike_outcome import outcome_by_friction
from racewright.holding.strike_slow import slow_response
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
from racewright.ledger.holding_parts import HoldingFindings
from racewright.ledger.struck_findings import StruckBy, StruckYear
from racewright.remark import Remark
from tests.dossier import holding_sample as s
from tests.holding.bodies import STREAM, spread, states
from tests.holding.machines import strike


@cache
def found() -> HoldingFindings:
    """A four-line holding with debris, one strike and a year of logs."""
    loads = tuple(
        HeldLoad(o.name, o.stream_speed, o.thrust, o.roll_moment, o.drag, 0.4, 0.0, "invented") for o in states()
    )
    return HoldingFindings(
        name="sample",
        description="four lines <b>",
        invented=True,
        layout=spread(),
        loads=loads,
        held=_held(),
        anchors=_anchors(),
        debris=_debris(),
        struck=(_struck(),),
        year=_year(),
        help=_help(),
        weak_link="shear pin",
    )


def _held() -> Held:
    table = s.swept()
    return Held(
        depths=(AtDepth("median", STREAM.depth, STREAM.reference_height, table),),
        lost=s.lost(),
        worst=s.worst(),
        factors=s.FACTORS,
        anchor_names=tuple(f"anchor of {name}" for name in table.lines),
        fixed_points=np.zeros((len(table.lines), 3)),
        watch=s.watched(),
        low_water=low_water(spread(), STREAM, states()[0], [8.0, 6.0, 5.0], cover=0.5),
        lowest_water=5.0,
        cover_wanted=0.5,
        bed_clearance_wanted=0.4,
        roll_wanted=0.2,
        drawn_height=STREAM.reference_height,
        cover=float(np.nanmin(table.cover)),
        bed_clearance=float(np.nanmin(table.bed_clearance)),
        roll=float(np.nanmax(np.abs(table.roll))),
        worst_pose="tree at 2.60 m/s, median",
        remarks=(Remark("warning", "A line may strum.", "strumming"),),
    )


def _anchors() -> tuple[AnchorFound, ...]:
    made = []
    for name, check in s.anchor_checks().items():
        loads = [one.case.load for one in check.cases]
        worst = max(loads, key=lambda load: load.total)
        proof = proof_load("drag", loads)
        made.append(
            AnchorFound(name, "drag", (name,), worst.horizontal, worst.vertical, worst.case, check, proof, "")
        )
    return (*made, AnchorFound("bare", "", ("bare",), 9e3, 1e3, "tree", None, None, "not described"))


def _debris() -> tuple[DebrisHeld, ...]:
    load = held_trunk(Log(9.0, 0.35, 800.0, "submerged"), 2.6, (0.0, 0.0, 0.0))
    parted = release((load,), WeakLink("shear pin", 9e3), 2.6, 0.9, 700.0, retaining=RetainingLine(6.0, 6e4, 1e6))
    return (DebrisHeld("spruce", "trunk", 2.6, load, "9 m long", parted),)


def _struck() -> StruckBy:
    one = strike(offset=0.3)
    return StruckBy(
        "saw log",
        one.log.mass,
        one.machine.surge_mass,
        one.stream_speed,
        one.tether.along,
        one.tether.pretension,
        9e3,
        "median",
        STREAM.depth,
        None,
        s.two_phases(0.3),
        outcome_by_friction(one, (0.2, 0.5), until=10.0),
        beside_fixed(one, until=10.0),
        code_estimates(one.log.mass, one.log.diameter, one.approach_speed),
    )


def _year() -> StruckYear:
    level = np.array([1e3, 1e4, 1e5])
    chance = np.array([0.9, 0.3, 0.01])
    years = s.years()
    return StruckYear(
        12.0, level, chance, chance, chance, chance, 0.9 * chance, chance, 0.2, 0.1, 0.3, years.figures, 400, 0.95,
        (), 12e3, years,
    )  # fmt: skip


def _help() -> HoldingHelp:
    choices = line_choices(20e3, s.FACTORS[0], 20.0)
    first = s.two_phases(0.3).first.force
    slow = slow_response(400.0, 500.0, 2.5, strike().tether)
    trade = tuple(
        StiffnessTrade(
            one, ("port bow", "starboard bow"), 2.0 * one.stream_stiffness, slow.tension, slow.plastic.travel, first
        )
        for one in choices
    )
    sizes = (
        SizeProposal("net buoyancy", 2e3, 3e3, "N", "tree at 2.60 m/s", "then it clears", True),
        SizeProposal("fairleads from the middle plane", 0.6, 0.6, "m", "", "no width does", False),
    )
    return HoldingHelp("port bow", "intact", "tree, median", 2.6, 20e3, 40e3, choices, trade, sizes)
