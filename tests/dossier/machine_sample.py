"""The invented machine's findings, and what its stage answers: plausible analytic stand-ins."""

from __future__ import annotations

import math
from functools import cache

import numpy as np

from racewright.flow.result import Axisymmetric
from racewright.ledger.drive_findings import DriveFindings
from racewright.ledger.findings import MachineFindings
from racewright.machine.drive import Drive
from racewright.machine.duct import Duct
from racewright.machine.hub import Hub
from racewright.machine.unit import DesignIntent, RowIntent, Unit
from racewright.remark import Remark
from racewright.stage.bands import CauseBand, PowerBands
from racewright.stage.parts import Forces, HubCore, OutsideBook
from racewright.stage.performance_map import PerformanceMap
from racewright.stage.result import Losses, OperatingPoint, PowerCurve, SpeedRatioCurve, State, Triangles
from racewright.water import Water
from tests.bands import relative_band
from tests.dossier.machine_shapes import (
    BETA,
    CH,
    LENGTH,
    RH,
    RT,
    SPEED_RATIO,
    THICK,
    TSR,
    U,
    duct_outline,
    hub_outline,
    row,
    streamlines,
)
from tests.drive_case import drive_findings

RHO = 999.7
AREA = math.pi * (RT**2 - RH**2)


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
    duct_x, duct_r = duct_outline()
    hub_x, hub_r = hub_outline(hub)
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
        row("vanes", 0.18, 9, (0.12, 0.16), triangles, 0.0),
        row("blades", 0.4, 5, (0.14, 0.12), triangles, 0.005),
        Water("fresh", 283.15, RHO, 1.307e-6, 1228.0),
        flow,
        streamlines(hub),
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
        _drive(),
    )


@cache
def _drive() -> DriveFindings:
    return drive_findings(rated_power="5 kW", rotor_inertia="20 kg m2")


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
