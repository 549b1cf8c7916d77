"""Invented findings for the dossier's tests: plausible analytic stand-ins, a test double and nothing else."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from racewright.flow.result import Axisymmetric, Streamlines
from racewright.ledger.findings import (
    Assumption,
    CommunityFindings,
    Duty,
    Findings,
    InputRow,
    MachineFindings,
    Missing,
    PlaceFindings,
)
from racewright.machine.drive import Drive
from racewright.machine.duct import Duct
from racewright.machine.hub import Hub
from racewright.machine.row import Row
from racewright.machine.unit import DesignIntent, RowIntent, Unit
from racewright.place.result import DurationCurve, Site, SpeedClimate, Standing
from racewright.remark import Remark
from racewright.stage.bands import CauseBand, PowerBands
from racewright.stage.parts import Forces, HubCore, OutsideBook
from racewright.stage.performance_map import PerformanceMap
from racewright.stage.result import Losses, OperatingPoint, PowerCurve, SpeedRatioCurve, State, Triangles
from racewright.supply.result import Comparison, DieselCost, LevelisedCost, YearlyEnergy
from racewright.uncertainty import Band
from racewright.water import Water
from tests.bands import relative_band
from tests.drive_case import drive_findings

Floats = NDArray[np.float64]

RT, RH, U, CH, SPEED_RATIO, TSR = 0.5, 0.15, 2.5, 0.62, 1.25, 2.0
LENGTH, BETA, THICK = 0.8, 1.5, 0.12
RHO = 999.7
AREA = math.pi * (RT**2 - RH**2)
KWH = 3.6e6
W = math.sqrt(1 - CH)


def _duct() -> tuple[Floats, Floats]:
    c = 0.5 * LENGTH * (1 - np.cos(np.linspace(0, np.pi, 61))) / LENGTH
    half = 5 * THICK * LENGTH * (0.2969 * np.sqrt(c) - 0.126 * c - 0.3516 * c**2 + 0.2843 * c**3 - 0.1036 * c**4)
    trailing = RT * math.sqrt(BETA)
    leading = trailing - LENGTH * math.sin(0.02)
    for _ in range(60):
        chord = leading + (trailing - leading) * c
        leading += RT - float(np.min(chord - half))
    chord = leading + (trailing - leading) * c
    x = LENGTH * c
    return np.concatenate([x[::-1], x[1:]]), np.concatenate([(chord - half)[::-1], (chord + half)[1:]])


def _hub(hub: Hub) -> tuple[Floats, Floats]:
    t = np.linspace(0, np.pi / 2, 24)
    nose = (hub.nose_x + hub.nose_length * (1 - np.cos(t)), hub.radius * np.sin(t))
    begin = hub.nose_x + hub.nose_length + hub.cylinder_length
    tail = (begin + hub.tail_length * np.sin(t), hub.radius * np.cos(t))
    return np.concatenate([nose[0], tail[0]]), np.concatenate([nose[1], tail[1]])


def _row(
    kind: str, place_x: float, count: int, chord: tuple[float, float], triangles: Triangles, clearance: float
) -> Row:
    r = triangles.radius
    if kind == "vanes":
        stagger, camber = triangles.vane_exit_angle / 2, triangles.vane_exit_angle
    else:
        stagger = (triangles.relative_angle_in + triangles.relative_angle_out) / 2
        camber = triangles.relative_angle_out - triangles.relative_angle_in
    return Row(
        "vanes" if kind == "vanes" else "blades",
        count,
        place_x,
        r,
        np.interp(r, [RH, RT], chord),
        stagger,
        camber,
        np.full_like(r, 0.09),
        clearance,
    )


def _streamlines(hub: Hub) -> Streamlines:
    x = np.linspace(-2.6, 4.2, 160)
    up, down = math.sqrt(SPEED_RATIO), math.sqrt(SPEED_RATIO / W)
    blend_in, blend_out = 0.5 * (1 + np.tanh((x + 0.25) / 0.45)), 0.5 * (1 + np.tanh((x - 0.9) / 0.5))
    lines: list[tuple[Floats, bool]] = []
    for part in (0.15, 0.35, 0.55, 0.75, 0.93):
        area = part * (RT**2 - RH**2)
        inner = np.where((x > hub.nose_x) & (x < 1.5), RH, 0.0)
        inner = np.convolve(np.pad(inner, 12, mode="edge"), np.ones(25) / 25, mode="valid")
        factor = up**2 + (1 - up**2) * blend_in + (down**2 - 1) * blend_out
        lines.append((np.sqrt(area * factor + inner**2), True))
    for start in (0.66, 0.85, 1.05, 1.3):
        bump = 0.14 * np.exp(-(((x - 0.35) / 0.8) ** 2)) * (0.66 / start) ** 2
        lines.append((start + bump + 0.05 * blend_out * (0.66 / start), False))
    return Streamlines(
        tuple(x for _ in lines),
        tuple(r for r, _ in lines),
        tuple(np.ones_like(x) for _ in lines),
        tuple(c for _, c in lines),
    )


def machine(description: str = "River unit, invented for the tests.") -> MachineFindings:
    """A 1.0 m throat, 4 kW at 2.5 m/s."""
    hub = Hub(RH, -0.15, 0.25, 0.5, 0.6)
    unit = Unit(
        Duct(RT, BETA, LENGTH, THICK),
        hub,
        RowIntent(9, 0.18, 0.12, 0.16, 0.09),
        RowIntent(5, 0.4, 0.14, 0.12, 0.09, 0.01),
        DesignIntent(U, CH, TSR),
        2e-5,
    )
    r = np.linspace(RH, RT, 9)
    omega = TSR * U / RT
    dh = CH * U**2 / 2
    swirl, axial, blade = 0.92 * dh / (omega * r), np.full_like(r, SPEED_RATIO * U), omega * r
    swirl_out = 0.03 * swirl
    triangles = Triangles(
        r,
        blade,
        axial,
        swirl,
        swirl_out,
        np.arctan2(swirl, axial),
        np.arctan2(swirl - blade, axial),
        np.arctan2(swirl_out - blade, axial),
    )
    flow_rate = SPEED_RATIO * U * AREA
    power = 0.89 * RHO * dh * flow_rate
    cp = power / (0.5 * RHO * AREA * U**3)
    point = OperatingPoint(
        U,
        omega,
        TSR,
        CH,
        SPEED_RATIO,
        flow_rate,
        dh,
        power / omega,
        power,
        0.98 * 0.5 * RHO * AREA * U**2,
        cp,
        0.98,
        cp * AREA / (math.pi * RT**2 * BETA),
        0.89,
        14.0,
        0.006,
        triangles,
        Losses(0.031, 0.026, 0.008, 0.004, 0.007, 0.004, 0.015),
        np.linspace(2.6e5, 4.9e5, 9),
        np.linspace(3.1e5, 4.2e5, 9),
        ("attached",) * 9,
        ("attached",) * 9,
        relative_band(power, 0.25, "prior band, common practice"),
        True,
        3e-10,
        (Remark("caution", "CP on exit area is 0.44; devices measured so far stop near 0.60.", "exit power"),),
        CH + 0.016,
        0.016,
        0.0,
        0.0,
        "solved",
        Forces(1200.0, 150.0, 260.0, 60.0, 0.0),
        HubCore(0.006, 0.06, 0.1, -10.0, 0.1, False),
        -1700.0,
        OutsideBook(4000.0, power, 180.0, 40.0, 20.0, 0.0, 80.0, 130.0, 0.5, 0.1, 700.0, 0.001),
    )
    ratio = np.linspace(1.0, 3.6, 27)
    curve = SpeedRatioCurve(
        U,
        ratio,
        cp * (1 - 0.32 * (ratio - TSR) ** 2 + 0.05 * (ratio - TSR) ** 3),
        0.98 - 0.13 * (ratio - TSR),
        CH + 0 * ratio,
    )
    speed = np.linspace(0.0, 3.5, 71)
    shaft = power * (speed / U) ** 3
    electrical = np.where(speed >= 0.9, np.minimum(0.96 * 0.9 * shaft, 5000.0), 0.0)
    limited = electrical >= 5000.0
    running = np.where(speed >= 0.9, 0.96 * 0.9 * shaft, 0.0)
    power_curve = PowerCurve(
        speed,
        omega * speed / U,
        shaft,
        electrical,
        1.0 * speed**2,
        limited,
        np.minimum(0.75 * running, 5000.0),
        np.minimum(1.25 * running, 5000.0),
    )
    duct_x, duct_r = _duct()
    hub_x, hub_r = _hub(hub)
    load = np.linspace(0, 0.9, 10)
    ones = np.ones((10, 3))
    flow = Axisymmetric(
        load,
        np.sqrt(1 - load),
        1.6 - 0.55 * load,
        1 - 0.4 * load,
        r,
        np.ones((10, 9)),
        -0.2 * load,
        0.02 * load,
        0 * load + 1e-10,
        np.ones(10, dtype=np.bool_),
        np.full(10, 4, dtype=np.int64),
        duct_x,
        duct_r,
        hub_x,
        hub_r,
        np.ones((10, duct_x.size - 1)),
        np.ones((10, hub_x.size - 1)),
        ones,
        ones,
        np.ones((10, 2)),
        np.ones(10),
        AREA,
        (),
    )
    return MachineFindings(
        "river_unit",
        description,
        unit,
        Drive(0.96, 0.9, 0.9, 5000.0),
        _row("vanes", 0.18, 9, (0.12, 0.16), triangles, 0.0),
        _row("blades", 0.4, 5, (0.14, 0.12), triangles, 0.005),
        Water("fresh", 283.15, RHO, 1.307e-6, 1228.0),
        flow,
        _streamlines(hub),
        point,
        curve,
        power_curve,
        (
            State(
                "on load",
                U,
                omega,
                power,
                power / omega,
                1900.0,
                14.0,
                CH,
                True,
                "",
                0.006,
                flow_rate,
                -1700.0,
                SPEED_RATIO,
            ),
            State(
                "runaway",
                U,
                2 * omega,
                0.0,
                0.0,
                1500.0,
                640.0,
                0.3,
                True,
                "",
                0.2,
                1.3 * flow_rate,
                -5200.0,
                1.3 * SPEED_RATIO,
            ),
        ),
        _bands(power),
        _map(power, omega),
        (None, None),
        drive_findings(rated_power="5 kW", rotor_inertia="20 kg m2"),
    )


def _bands(power: float) -> PowerBands:
    causes = (
        CauseBand("drag and end losses of the rows", 0.97 * power, 1.01 * power, "invented for the tests"),
        CauseBand("separation in the duct", 0.86 * power, power, "invented for the tests"),
    )
    return PowerBands(power, causes, relative_band(power, 0.25, "prior band, common practice"))


def _map(power: float, omega: float) -> PerformanceMap:
    speed, ratio = np.linspace(0.5, 3.5, 7), np.linspace(0.0, 4.8, 13)
    u, x = np.meshgrid(speed, ratio, indexing="ij")
    shaft = power * (u / U) ** 3 * x / TSR * np.maximum(2.0 - x / TSR, 0.0)
    turning, none = omega * x / TSR * u / U, np.zeros_like(u)
    answered = x <= 2.0 * TSR
    return PerformanceMap(
        speed, ratio, answered, u < 0.0, turning, none, none, none, none, shaft, none, none, none, none, none
    )


def place(clearance_low: float = 0.18) -> PlaceFindings:
    """A reach 3 m deep at median flow."""
    rank = np.arange(1, 731) / 731
    discharge = 42.0 * np.exp(-1.05 * np.sqrt(2) * _erfinv(2 * rank - 1))
    speed = 1.75 * (discharge / 42.0) ** 0.3
    edge = np.arange(0.5, 3.8, 0.1)
    share = np.histogram(speed, edge)[0].astype(float)
    share /= share.sum()
    top, outer = 0.78, 1.235
    standings = (
        Standing("low water (Q95)", 8.1, 0.9, top + outer + clearance_low, top, clearance_low, 1.12),
        Standing("median", 42.0, 1.62, 3.02, top, 3.02 - top - outer, 1.75),
        Standing("high water (Q5)", 221.0, 3.31, 4.71, top, 4.71 - top - outer, 2.86),
    )
    site = Site(
        731,
        DurationCurve(discharge, rank),
        DurationCurve(speed, rank),
        SpeedClimate(edge, share, float(np.mean(speed)), float(np.mean(speed**3) ** (1 / 3))),
        standings,
        2.0,
        (
            Remark(
                "caution",
                "The record is 2.0 years long; a dry or wet year may move the yield by 15 %.",
                "record",
            ),
        ),
    )
    return PlaceFindings(
        "reach",
        "Reach below the old ferry, invented.",
        site,
        1.40,
        ((0.0, 2.0), (10.0, -1.4), (40.0, -1.1), (60.0, 2.2)),
    )


def _erfinv(y: Floats) -> Floats:
    a = 0.147
    t = np.log(1 - y**2)
    b = 2 / (np.pi * a) + t / 2
    return np.sign(y) * np.sqrt(np.sqrt(b**2 - t / a) - b)


def energy() -> YearlyEnergy:
    """About 13 MWh a year."""
    climate = place().site.climate
    speed = 0.5 * (climate.edge[1:] + climate.edge[:-1])
    power = np.where(speed >= 0.9, np.minimum(3400.0 * (speed / U) ** 3, 5000.0), 0.0)
    made = power * climate.share * 8760 * 3600 * 0.92
    total = float(made.sum())
    return YearlyEnergy(
        speed,
        climate.share,
        power,
        made,
        relative_band(total, 0.25, "prior band on power carried through"),
        total / (8760 * 3600),
        total / (8760 * 3600) / 5000,
        float(climate.share[speed < 0.9].sum()),
        float(climate.share[power >= 5000.0].sum()),
        (Remark("note", "Availability of 92 % is assumed, not measured.", "availability"),),
    )


def community() -> CommunityFindings:
    """A village with a 60 kW diesel set."""
    cost = 0.41 / KWH
    comparison = Comparison(
        LevelisedCost(0.0858, cost, 0.29 / KWH, 0.12 / KWH),
        Band(0.33 / KWH, cost, 0.55 / KWH, "energy band"),
        DieselCost(18000.0, 0.3, 0.31e-3 / KWH, 2100.0, 0.651 / KWH, 0.08 / KWH, 0.06 / KWH, 0.791 / KWH, 48.9),
        relative_band(12.1e3 * KWH, 0.25, "energy band"),
        Band(-1850.0, -420.0, 1010.0, ""),
        Band(2300.0, 4610.0, 6920.0, ""),
        Band(1.9, 2.6, 3.2, ""),
        Band(2.8, 3.75, 4.7, ""),
        "EUR",
        (Remark("caution", "The diesel runs at 30 % load, where its fuel use is least certain.", "diesel load"),),
        relative_band(7.9e3 * KWH, 0.25, "energy band"),
        0.246e-3 / KWH * 2100.0,
        False,
    )
    return CommunityFindings("village", "A village of 60 people, invented.", comparison)


REMARKS = (
    Remark(
        "warning",
        "At low water (Q95) the duct stands 0.18 m above the bed; floating wood will not pass beneath.",
        "clearance",
    ),
    Remark(
        "caution",
        "Ducted power carries the prior band of 25 % either way until a test of this machine calibrates it.",
        "ducted power",
    ),
    Remark("caution", "The record is 2.0 years long; a dry or wet year may move the yield by 15 %.", "record"),
    Remark("caution", "The diesel runs at 30 % load, where its fuel use is least certain.", "diesel load"),
    Remark("note", "Availability of 92 % is assumed, not measured.", "availability"),
)
DUTIES = (
    Duty("Hydrologist", "Check the rating curve above the highest gauging, and low water against a dry year."),
    Duty(
        "Licensed structural engineer",
        "Check duct, rows and every part that holds the machine under the local code.",
    ),
    Duty("Licensed electrician", "Check generator, cable and protection before anything is switched on."),
    Duty("Permit authority", "Decide on navigation, fish passage and works in the river."),
)
INPUTS = (
    InputRow(
        "machine.river_unit.duct.throat_diameter",
        "1000 mm",
        "smallest inner diameter of the duct",
        "invented for the tests",
    ),
    InputRow(
        "machine.river_unit.duct.exit_area_ratio",
        "1.5",
        "exit area over throat area, full circles",
        "invented for the tests",
    ),
    InputRow(
        "machine.river_unit.drive.rated_power",
        "5 kW",
        "electrical power that is not passed",
        "invented for the tests",
    ),
    InputRow(
        "machine.river_unit.drive.gear_efficiency",
        "96 %",
        "share of shaft power that the gear passes on",
        "default: common practice",
    ),
    InputRow("place.reach.record", "discharge.csv", "file of daily discharge", "invented for the tests"),
    InputRow(
        "place.reach.hub_depth",
        "1.4 m",
        "depth of the axis below the surface at median flow",
        "invented for the tests",
    ),
    InputRow("community.village.diesel.price", "2.1 EUR/L", "fuel price at the village", "invented for the tests"),
)
ASSUMPTIONS = (
    Assumption("The flow through duct and rows is axisymmetric and free of friction outside the rows.", "method"),
    Assumption("The prior band on every ducted power is 25 % either way.", "common practice, no source"),
    Assumption("The year has 8760 hours.", "convention"),
)
MISSING = (
    Missing("holding", "a [machine.river_unit.tethers] table and the anchors' places"),
    Missing("passage", "the fish that live in the reach, by length and season"),
)


def full(**change: object) -> Findings:
    """Everything known; keyword arguments replace fields."""
    fields: dict[str, object] = {
        "title": "River unit at the ferry reach",
        "case": "river",
        "version": "0.1.0",
        "scheme_hash": "5e94a8e0c1b2d3f4a5b6c7d8e9f00112233445566778899aabbccddeeff00112",
        "invented": (
            "The reach, its record and the village are invented for the demonstration.",
            "No figure here was measured.",
        ),
        "machine": machine(),
        "place": place(),
        "energy": energy(),
        "community": community(),
        "inputs": INPUTS,
        "assumptions": ASSUMPTIONS,
        "missing": MISSING,
        "duties": DUTIES,
        "remarks": REMARKS,
        "count": 1,
        "left_out": ("Cavitation", "Tethers, anchors, debris"),
    }
    return Findings(**{**fields, **change})  # type: ignore[arg-type]


def empty() -> Findings:
    """Nothing known."""
    return full(
        title="Untitled",
        invented=(),
        machine=None,
        place=None,
        energy=None,
        community=None,
        inputs=(),
        assumptions=(),
        duties=(),
        remarks=(),
        missing=(
            Missing("place", "a [place.x] table with a record or a histogram of speed"),
            Missing("machine", "a [machine.x] table with duct, hub, rows and drive"),
            Missing("energy", "a place and a machine joined by a [case.x] table"),
            Missing("cost", "a [community.x] table with its diesel set"),
        ),
    )
