"""Random strikes of logs on tethered machines, and what an integration finds of each; counts are a parameter.

Machines of 200 to 2000 kg with size to match, log masses 0.1 to 10 times theirs, water of 0.5 to 3 m/s, contact
stiffness over the whole published range, tethers of 1e-4 to 0.1 of it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import pi, radians

import numpy as np

from racewright.holding.contact_table import ContactStiffness
from racewright.holding.log_body import Log
from racewright.holding.strike_first_blow import first_blow, head_on_blow
from racewright.holding.strike_machine import StruckMachine, blunt_outline, guarded_outline
from racewright.holding.strike_run import StrikeRun, integrate_strike, run_from, steps_for
from racewright.holding.strike_scene import Strike
from racewright.holding.strike_slow import slow_response
from racewright.holding.strike_tether import Tether, front_tether
from racewright.holding.strike_touch import first_touch
from racewright.holding.strike_two_phase import second_phase


@dataclass(frozen=True)
class Found:
    """Greatest over all strikes, unless said otherwise.

    Attributes
    ----------
    strikes, shared : int
        All; those where another place touched within the first contact (the estimate is for one place).
    steps : int
        Fewest in a first contact.
    halved_first, halved_peak, halved_slow : float
        Change of the first peak, of the greatest force and of the slow tension with half the step [-].
    estimate : float
        Closed form of the first blow against the integration, single places [-].
    tenfold : float
        Change of the first peak with a tether ten times stiffer, over itself and kt_new/k; single places [-].
    work : float
        Work left over [-].
    slow_within, slow_worst : float
        Share of strikes whose second phase gives the slow tension within 2 %, and the greatest difference [-].
    """

    strikes: int
    shared: int
    steps: int
    halved_first: float
    halved_peak: float
    halved_slow: float
    estimate: float
    tenfold: float
    work: float
    slow_within: float
    slow_worst: float


def random_strikes(count: int, seed: int = 1) -> Found:
    """Integrate `count` strikes that touch."""
    random = np.random.default_rng(seed)
    rows: list[tuple[bool, int, float, float, float, float, float, float, float]] = []
    while len(rows) < count:
        strike, k = _draw(random)
        touch = first_touch(strike)
        if touch is None:
            continue
        base = integrate_strike(strike, k)
        half = integrate_strike(strike, k, steps_in_contact=240)
        blow = first_blow(strike, stiffnesses=(_named(k),)).blows[0].force
        stiff = _stiffer(strike, 0.1)
        soft = _first_peak(stiff, k)
        quick = second_phase(strike, touch, k, later=300.0)
        rows.append(
            (
                base.second_place or half.second_place,
                base.first_steps,
                abs(base.first_peak / half.first_peak - 1.0),
                abs(base.peak / half.peak - 1.0),
                abs(_slow(base) / _slow(half) - 1.0),
                abs(blow / half.first_peak - 1.0),
                abs(base.first_peak / soft - 1.0) / (strike.tether.along / k),
                abs(base.work.off),
                abs(_slow(quick) / _slow(half) - 1.0),
            )
        )
    shared = np.array([row[0] for row in rows])
    table = np.array([row[1:] for row in rows])
    return Found(
        strikes=count,
        shared=int(shared.sum()),
        steps=int(table[:, 0].min()),
        halved_first=float(table[:, 1].max()),
        halved_peak=float(table[:, 2].max()),
        halved_slow=float(table[:, 3].max()),
        estimate=float(table[~shared, 4].max()),
        tenfold=float(table[~shared, 5].max()),
        work=float(table[:, 6].max()),
        slow_within=float(np.mean(table[:, 7] < 0.02)),
        slow_worst=float(table[:, 7].max()),
    )


def _draw(random: np.random.Generator) -> tuple[Strike, float]:
    mass = 200.0 * 10.0 ** random.uniform(0.0, 1.0)
    half = 0.6 * (mass / 500.0) ** (1.0 / 3.0)
    lean = radians(random.uniform(2.0, 60.0))
    outline = guarded_outline(half, half, lean) if random.random() < 0.7 else blunt_outline(half, half)
    machine = StruckMachine(
        outline=outline,
        surge_mass=mass,
        sway_mass=mass * random.uniform(1.0, 1.6),
        yaw_inertia=mass * half**2 * random.uniform(0.3, 0.6),
        drag_area=half**2 * random.uniform(1.5, 3.0),
        side_drag_area=half**2 * random.uniform(1.5, 3.0),
        yaw_drag=0.3 * mass * half**2,
    )
    density = random.uniform(450.0, 1000.0)
    slender = random.uniform(6.0, 25.0)
    diameter = (mass * 10.0 ** random.uniform(-1.0, 1.0) / density / (0.25 * pi * slender)) ** (1.0 / 3.0)
    log = Log(slender * diameter, diameter, density)
    heading = random.uniform(-1.5, 1.5)
    reach = half + 0.5 * log.length * abs(np.sin(heading))
    k = 2.4e6 * 10.0 ** random.uniform(0.0, 1.4)
    speed = random.uniform(0.5, 3.0)
    pull = 500.0 * machine.drag_area * speed**2
    strike = Strike(
        log=log,
        machine=machine,
        tether=front_tether(k * 10.0 ** random.uniform(-4.0, -1.0), pull, 20.0, half),
        stream_speed=speed,
        heading=heading,
        offset=random.uniform(-1.0, 1.0) * reach,
        friction=random.uniform(0.0, 0.6),
        restitution=random.uniform(0.1, 1.0),
    )
    return strike, k


def _named(k: float) -> ContactStiffness:
    return ContactStiffness("drawn", k, "drawn for a test", "none", "invented", "")


def _stiffer(strike: Strike, factor: float) -> Strike:
    tether = strike.tether
    matrix = np.array(tether.stiffness)
    matrix[0, 0] *= factor
    return replace(strike, tether=Tether(matrix, tether.pretension))


def _first_peak(strike: Strike, k: float) -> float:
    """Of a run that ends soon after the first contact."""
    return integrate_strike(strike, k, until=0.25).first_peak


def _slow(run: StrikeRun) -> float:
    return run.slow_tension.high


@dataclass(frozen=True)
class Central:
    """Greatest difference of the two-phase closed form from the integration, over central strikes without drag [-].

    Attributes
    ----------
    first : float
        First-blow force.
    elastic, plastic : float
        First peak of the slow tension, restitution 1 and 0.05.
    """

    first: float
    elastic: float
    plastic: float


def central_strikes(count: int, seed: int = 1) -> Central:
    """Central strikes of logs of 0.1 to 10 machine masses, tethers of 1e-4 to 0.05 of the contact stiffness."""
    random = np.random.default_rng(seed)
    rows = []
    for _ in range(count):
        mass = 200.0 * 10.0 ** random.uniform(0.0, 1.0)
        diameter = (mass * 10.0 ** random.uniform(-1.0, 1.0) / 700.0 / (3.0 * pi)) ** (1.0 / 3.0)
        log = Log(12.0 * diameter, diameter, 700.0)
        k = 2.4e6 * 10.0 ** random.uniform(0.0, 1.4)
        tether = Tether(k * 10.0 ** random.uniform(-4.0, -1.3))
        machine = StruckMachine(blunt_outline(2.0 * diameter, 3.0 * diameter), mass, mass, mass)
        speed = random.uniform(0.5, 3.0)
        closed = slow_response(log.mass, mass, speed, tether)
        force = head_on_blow(log.mass, mass, speed, stiffnesses=(_named(k),)).force.high
        found = []
        for e, case in ((1.0, closed.elastic), (0.05, closed.plastic)):
            strike = Strike(log, machine, tether, speed, friction=0.0, restitution=e)
            found.append(_without_drag(strike, k, 1.08 * case.time))
        rows.append(
            (
                abs(force / found[0].first_peak - 1.0),
                abs(closed.elastic.rise / _slow(found[0]) - 1.0),
                abs(closed.plastic.rise / _slow(found[1]) - 1.0),
            )
        )
    first, elastic, plastic = np.array(rows).max(axis=0)
    return Central(float(first), float(elastic), float(plastic))


def _without_drag(strike: Strike, k: float, until: float) -> StrikeRun:
    touch = first_touch(strike)
    assert touch is not None
    plane = strike.plane(k)
    log = plane.log._replace(drag_along=0.0, drag_across=0.0)
    return run_from(strike, touch, touch.state, plane._replace(log=log), steps_for(strike, k, 200, until))
