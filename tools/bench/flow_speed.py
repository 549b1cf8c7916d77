"""Speed of the flow: one response, the same by plain array kernels, the cost of a sweep, growth with the panels."""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from tests.flow.random_machines import LOADS

from racewright import stage
from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.equations import Problem, system
from racewright.flow.result import Axisymmetric
from racewright.flow.surfaces import surfaces
from racewright.machine.drive import Drive
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour, throat_x
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_contour
from racewright.machine.unit import DesignIntent, RowIntent, Unit
from racewright.stage.design import design_rows
from racewright.water import Water
from tools.bench.plain_kernels import plain_kernels

PANELS = 60
"""Panels on each side of the duct."""
WAKE_SHARE = 4.0 / 3.0
"""Wake panels over the duct's panels a side: all counts grow together."""
GROWTH = (40, 60, 80, 120, 160)
TURNS = 5

UNIT = Unit(
    Duct(0.5, 1.6, 0.6, 0.12),
    Hub(0.15, -0.2, 0.3, 0.5, 0.4),
    RowIntent(7, 0.15, 0.16, 0.20, 0.10),
    RowIntent(5, 0.35, 0.16, 0.20, 0.10, clearance=0.01),
    DesignIntent(2.5, 0.62, 2.0),
)
"""Invented river machine of 1 m throat diameter, for speed only."""
DRIVE = Drive(0.97, 0.92, 0.7, 5000.0)
FRESH = Water("fresh", 283.15, 999.7, 1.307e-6, 1228.0)


@dataclass(frozen=True)
class FlowSpeed:
    """What was found; times are medians of processor time of one process on one thread.

    Attributes
    ----------
    response, plain : float
        12 loads at 2 x 60 panels with hub, by the compiled and by the plain kernels [s].
    difference : float
        Largest difference of the two in speed ratio and surface speeds, over the stream speed [-].
    order : int
        Unknowns of one load.
    sweep, solve : float
        Residual and Jacobian of one Newton step; one dense LAPACK solve of that order [s].
    growth : tuple of (int, float)
        Panels a side and time of the response with every count in proportion [s].
    map_points, map : int, float
        Points of a performance map and its time; NaN where there is no map to ask [s].
    """

    response: float
    plain: float
    difference: float
    order: int
    sweep: float
    solve: float
    growth: tuple[tuple[int, float], ...]
    map_points: int
    map: float

    @property
    def ratio(self) -> float:
        """Plain over compiled time [-]."""
        return self.plain / self.response

    @property
    def exponent(self) -> float:
        """Slope of log time over log panels, least squares [-]."""
        panels, seconds = np.log(np.array(self.growth)).T
        return float(np.polyfit(panels, seconds, 1)[0])


def respond(panels: int = PANELS) -> Axisymmetric:
    """The 12-load response of the machine with so many panels a side."""
    x, r = duct_contour(UNIT.duct, panels)
    hub_x, hub_r = hub_contour(UNIT.hub, panels)
    return axisymmetric(
        x,
        r,
        rotor_x=throat_x(UNIT.duct),
        hub_x=hub_x,
        hub_r=hub_r,
        head_coefficients=LOADS,
        wake_panels=round(WAKE_SHARE * panels),
    )


def median(job: Callable[[], object], turns: int = TURNS) -> float:
    """Median processor time of some runs after one that is not counted; one thread, so that of an idle clock [s]."""
    job()
    found = []
    for _turn in range(turns):
        start = time.process_time()
        job()
        found.append(time.process_time() - start)
    return statistics.median(found)


def difference(one: Axisymmetric, other: Axisymmetric) -> float:
    """Largest difference in speed ratio and surface speeds [-]."""
    names = ("speed_ratio", "duct_speed", "hub_speed")
    return max(float(np.max(np.abs(getattr(one, name) - getattr(other, name)))) for name in names)


def measure() -> FlowSpeed:
    """All of it, about a minute."""
    flow = respond()
    if not flow.converged.all():
        raise RuntimeError("the flow to be timed did not converge")
    response = median(respond)
    with plain_kernels():
        plain = median(respond, 3)
        off = difference(flow, respond())
    order, sweep, solve = _sweep(flow)
    growth = tuple((n, median(lambda n=n: respond(n), 3)) for n in GROWTH)  # type: ignore[misc]
    points, seconds = _map(flow)
    return FlowSpeed(response, plain, off, order, sweep, solve, growth, points, seconds)


def _sweep(flow: Axisymmetric) -> tuple[int, float, float]:
    body = surfaces(flow.duct_x, flow.duct_r, flow.hub_x, flow.hub_r)
    i = int(np.argmin(np.abs(flow.head_coefficient - 0.6)))
    wake_x, wake_r = flow.wake_x[i], flow.wake_r[i]
    nodes = [0.0]
    for middle in flow.hub_speed[i]:
        nodes.append(-2.0 * float(middle) - nodes[-1])
    edge = flow.speed_ratio[i] * flow.annulus_area / (2.0 * np.pi)
    unknown = np.concatenate([-flow.duct_speed[i], nodes[1:-1], [edge], wake_r[1:], flow.wake_strength[i]])
    problem = Problem(body, body.own(), wake_x, float(wake_r[0]), float(flow.head_coefficient[i]))
    error, slope = system(problem, unknown)
    if np.max(np.abs(error)) > 1e-6:
        raise RuntimeError("the state to be timed is not the solved one")
    return unknown.size, median(lambda: system(problem, unknown)), median(lambda: np.linalg.solve(slope, error), 25)


def _map(flow: Axisymmetric) -> tuple[int, float]:
    """A map of 20 tip-speed ratios at 20 stream speeds."""
    performance_map = getattr(stage, "performance_map", None)
    if not callable(performance_map):
        return 0, float("nan")
    vanes, blades = design_rows(UNIT, flow, FRESH)
    speeds, ratios = np.linspace(0.8, 3.5, 20), np.linspace(0.8, 3.2, 20)
    asked = (UNIT, vanes, blades, flow, FRESH, speeds, ratios)
    return speeds.size * ratios.size, median(lambda: performance_map(*asked), 3)


def table(found: FlowSpeed) -> str:
    """The figures as Markdown."""
    asked = found.map_points > 0
    rows = [
        ("12-load response, 2 x 60 panels with hub", f"{found.response:.3f} s"),
        ("the same by array kernels of NumPy and SciPy", f"{found.plain:.2f} s"),
        ("ratio of the two (wanted: 2.5)", f"{found.ratio:.1f}"),
        ("largest difference in speed ratio and surface speeds (wanted: 1e-9)", f"{found.difference:.0e}"),
        (f"one sweep: residual and Jacobian of order {found.order}", f"{1e3 * found.sweep:.2f} ms"),
        ("one LAPACK solve of that order", f"{1e3 * found.solve:.2f} ms"),
        ("a sweep in such solves", f"{found.sweep / found.solve:.1f}"),
        *((f"response at 2 x {n} panels, wake and hub in proportion", f"{s:.3f} s") for n, s in found.growth),
        ("exponent of time against panel count (wanted: below 2.4)", f"{found.exponent:.2f}"),
        (f"map of {found.map_points} points" if asked else "map", f"{found.map:.3f} s" if asked else "not measured"),
        (
            "map over response (wanted: at most 2)",
            f"{found.map / found.response:.2f}" if asked else "not measured",
        ),
    ]
    return "| flow | measured |\n|---|---|\n" + "".join(f"| {name} | {value} |\n" for name, value in rows)
