"""The stage: identities, books, moments, open rotor, anchors, sizes, speed, smoothness, at full counts."""

from __future__ import annotations

import racewright.threads  # noqa: F401  (first: pins threads before NumPy loads)  # isort: skip

import json
import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import fields, replace
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
from tests.stage.random_machines import (
    Drawn,
    angular_mismatch,
    drawn,
    fastest,
    flagged,
    inside_mismatch,
    not_numbers,
    sweep,
    vane_torque,
)

from racewright.flow.axisymmetric import axisymmetric
from racewright.ledger.convert import unit_of
from racewright.ledger.graph import evaluate, plan
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub_contour import hub_contour
from racewright.scheme import load_scheme
from racewright.stage.design import design_rows
from racewright.stage.operating_point import ready_stage, solve_stage
from racewright.stage.result import OperatingPoint
from tools.bench import flow_speed
from tools.proofs.line import ROOT, Line, Measured, run_tests

MACHINES = 24
OUTSIDE_MACHINES = 12
OUTSIDE_PANELS = 160
SPEEDS = (0.6, 1.5, 3.0)
STEPS = 200
DENSE_COUNT, DENSE_RATIO = 11, 1.6
"""Blades and tip-speed ratio of the dense rotor."""
ABOUT = 0.25
"""What 'about' twice and three times may be off by, of themselves; own choice, the prior band's width."""
NOT_LOADED = {"drag_power", "mismatch"}
"""Entries of an outside book that are not a use of the drag's power."""


@cache
def machine(seed: int, panels: int = 40) -> Drawn:
    """A random machine, drawn once."""
    return drawn(seed, panels)


@cache
def fine_example() -> Drawn:
    """The bundled river unit with fine panels."""
    one = example()
    unit = one.stage.unit
    x, r = duct_contour(unit.duct, OUTSIDE_PANELS)
    hub_x, hub_r = hub_contour(unit.hub, OUTSIDE_PANELS)
    flow = axisymmetric(x, r, hub_x=hub_x, hub_r=hub_r, rotor_x=unit.blades.place_x)
    vanes, blades = design_rows(unit, flow, one.stage.water)
    return Drawn(ready_stage(unit, vanes, blades, flow, one.stage.water), vanes, blades, ())


@cache
def example() -> Drawn:
    """The bundled river unit, as its own scheme makes it."""
    loaded = load_scheme(ROOT / "src/racewright/examples/river_unit/scheme.toml")
    name, case = next(iter(loaded.scheme.case.items()))
    values = evaluate(loaded, name, case)
    unit = unit_of(plan(loaded, name, case).given["design_point"].keys)
    vanes, blades = values["rows"]
    return Drawn(ready_stage(unit, vanes, blades, values["flow"], values["water"]), vanes, blades, ())


def by_files(*patterns: str) -> Callable[[], Measured]:
    """Measure by test files; where one is not there yet, the rest runs and the line is not measured."""

    def measure() -> Measured:
        found = {pattern: sorted(str(path.relative_to(ROOT)) for path in ROOT.glob(pattern)) for pattern in patterns}
        missing = [pattern for pattern, files in found.items() if not files]
        files = [file for some in found.values() for file in some]
        said, ok = [], True
        if files:
            passed, failed, notes = run_tests(*files)
            said.append(f"{passed} checks pass")
            said += [f"{len(failed)} fail: {', '.join(failed[:4])}"] if failed else []
            said += [notes] if notes else []
            ok = not failed and passed > 0
        if missing:
            said.append(f"not there yet: {', '.join(missing)}")
        return Measured("; ".join(said), (None if missing else True) if ok else False)

    return measure


def identities() -> Measured:
    """Mean line, worked stages, free vortex, radial equilibrium, rows, the contract of the row model."""
    return by_files(
        "tests/external/test_stage_meanline.py",
        "tests/external/test_stage_rows.py",
        "tests/stage/test_row_model_contract.py",
        "tests/**/test_*radial*.py",
    )()


def books() -> Measured:
    """Inside and angular at every point of random machines; outside at fine panels where the load is solved."""
    inside, angular, points, refused, silent, odd = 0.0, 0.0, 0, 0, 0, 0
    for seed in range(MACHINES):
        one = machine(seed)
        refused += len(one.refused)
        for speed in SPEEDS:
            found = sweep(one, speed, np.linspace(0.0, fastest(one, speed), 25))
            silent += len(found.unanswered)
            points += len(found.points)
            inside = max([inside, *(abs(inside_mismatch(one, point)) for point in found.points)])
            angular = max([angular, *(abs(angular_mismatch(one, point)) for point in found.points)])
            odd += sum(bool(not_numbers(point)) or not point.converged for point in found.points)
    text = (
        f"inside {inside:.0e}, angular {angular:.0e} at most over {points} points of {MACHINES} machines, standstill "
        f"to runaway ({silent} without answer, {odd} not finite or not converged, {refused} draws refused)"
    )
    ok = max(inside, angular) < 1e-8 and odd == 0 and silent == 0
    plain, told = _outside()
    text += (
        f"; outside, {OUTSIDE_PANELS} panels a side, CT 0.2 and up: {max(plain, default=1.0):.2%} at most over "
        f"{len(plain)} points that say nothing of themselves, and over the {len(told)} that say that head or swirl "
        f"differ over the radius or that sections stall, which one sheet of wake cannot carry, {np.median(told):.1%} "
        f"in the middle and {max(told, default=0.0):.1%} at most"
    )
    return Measured(text, ok and bool(plain) and max(plain) < 0.005)


def _outside() -> tuple[list[float], list[float]]:
    """Mismatch of the outside book of the points without a remark on head or sections, and of the others."""
    plain: list[float] = []
    told: list[float] = []
    for seed in range(-1, OUTSIDE_MACHINES):
        one = fine_example() if seed < 0 else machine(seed, OUTSIDE_PANELS)
        ratio = one.stage.unit.design.tip_speed_ratio
        ratios = np.concatenate([np.linspace(0.0, fastest(one, 2.0), 25), ratio * np.linspace(0.9, 1.1, 9)])
        for point in sweep(one, 2.0, ratios).points:
            if point.thrust_coefficient < 0.2 or point.flow_state != "solved":
                continue
            book = point.book
            uses = sum(getattr(book, field.name) for field in fields(book) if field.name not in NOT_LOADED)
            off = abs(uses / (point.thrust * point.stream_speed) - 1.0)
            spread = any(r.about == "head spread" for r in point.remarks)
            (told if spread or flagged(point) else plain).append(off)
    return plain, told


def moments() -> Measured:
    """Roll moment against the sections' own torque; its size on load, at runaway and held."""
    miss, at_design, run, held = 0.0, [], [], []
    for seed in range(-1, MACHINES):
        one = example() if seed < 0 else machine(seed)
        speed = one.stage.unit.design.stream_speed
        ratio = one.stage.unit.design.tip_speed_ratio
        points = sweep(one, speed, np.array([ratio, fastest(one, speed), 0.0])).points
        for point in points:
            by_swirl = one.stage.water.density * point.flow_rate * point.swirl_exit
            by_rows = -(point.torque + vane_torque(one, point))
            scale = abs(vane_torque(one, point))
            miss = max(miss, abs(point.roll_moment - by_swirl) / scale, abs(point.roll_moment - by_rows) / scale)
        shares = [point.roll_moment / points[0].torque for point in points]
        at_design.append(abs(shares[0]))
        run.append(shares[1])
        held.append(shares[2])
        if seed < 0:
            said = _explained(one, points)
    over = sum(share > 0.05 for share in at_design[1:])
    text = (
        f"off by {miss:.0e} at most, by angles and by sections' forces; at the design point {at_design[0]:.1%} of "
        f"shaft torque in the example, over 5 % in {over} of {MACHINES} random machines, {max(at_design):.1%} at "
        f"most; {said}; random machines at runaway {_spread(run[1:])}, held {_spread(held[1:])}"
    )
    dense, pitch = _dense_held()
    text += (
        f"; held, the example with {DENSE_COUNT} blades of {pitch:.1f} chords a pitch and tip-speed ratio "
        f"{DENSE_RATIO:g}: {dense:+.1f}. It goes as the square of the flow and of the tip-speed ratio over CH, times "
        "what a stalled row still guides: almost nothing of a sparse one"
    )
    about = abs(run[0] / 2.0 - 1.0) < ABOUT and abs(dense / -3.0 - 1.0) < ABOUT
    return Measured(text, miss < 1e-8 and at_design[0] < 0.05 and about)


def _dense_held() -> tuple[float, float]:
    """Held roll moment over the torque on load of the example with a dense rotor; its chord over pitch mid-span."""
    stage = example().stage
    unit = stage.unit
    tip = 1.2 * unit.blades.tip_chord
    unit = replace(
        unit,
        blades=replace(unit.blades, count=DENSE_COUNT, tip_chord=tip),
        design=replace(unit.design, tip_speed_ratio=DENSE_RATIO),
    )
    vanes, blades = design_rows(unit, stage.flow, stage.water)
    ready = ready_stage(unit, vanes, blades, stage.flow, stage.water)
    speed = unit.design.stream_speed
    on_load, held = (solve_stage(ready, speed, ratio * speed / ready.tip_radius) for ratio in (DENSE_RATIO, 0.0))
    middle = len(blades.radius) // 2
    pitch = float(blades.chord[middle] * blades.count / (2.0 * np.pi * blades.radius[middle]))
    return held.roll_moment / on_load.torque, pitch


def _explained(one: Drawn, points: tuple[OperatingPoint, ...]) -> str:
    """Shares of vanes and rotor in the roll moment, over the torque on load."""
    said = []
    for name, point in zip(("runaway", "held"), points[1:], strict=True):
        torque = points[0].torque
        squared = (point.speed_ratio / points[0].speed_ratio) ** 2
        said.append(
            f"{name} {point.roll_moment / torque:+.2f} of it, of which vanes "
            f"{-vane_torque(one, point) / torque:+.2f} (flow squared {squared:.2f}) and rotor "
            f"{-point.torque / torque:+.2f}, blades stalled at {point.blade_state.count('stalled')} of "
            f"{len(point.blade_state)} radii"
        )
    return ", ".join(said)


def _spread(values: list[float]) -> str:
    low, middle, high = np.quantile(values, [0.05, 0.5, 0.95])
    return f"{middle:+.1f} ({low:+.1f} to {high:+.1f})"


def sizes() -> Measured:
    """Rules of size by the suite; the example's power at four speeds as its own report has it."""
    size = by_files("tests/stage/test_sizing.py")()
    with TemporaryDirectory() as folder:
        scheme = str(Path(folder) / "demo" / "scheme.toml")
        environment = {**os.environ, "PYTHONPATH": str(ROOT / "src"), "RACEWRIGHT_CACHE": f"{folder}/cache"}
        for arguments in (["new", str(Path(folder) / "demo")], ["report", scheme, "--json"]):
            command = [sys.executable, "-m", "racewright", *arguments]
            done = subprocess.run(command, env=environment, capture_output=True, text=True, check=False)
            if done.returncode:
                return Measured(f"the example's {arguments[0]} ended with exit code {done.returncode}", False)
    answer = json.loads(done.stdout)
    curve, share = answer["machine"]["power_curve"], answer["energy"]["share_rated"]
    wanted = [1.5, 2.0, 2.5, 3.0]
    names = ("electrical_power_W", "band_low_W", "band_high_W")
    power, low, high = (np.interp(wanted, curve["stream_speed_m_per_s"], curve[name]) for name in names)
    said = ", ".join(
        f"{0.001 * p:.2f} kW ({0.001 * a:.2f} to {0.001 * b:.2f}) at {v:g} m/s"
        for v, p, a, b in zip(wanted, power, low, high, strict=True)
    )
    ok = bool(np.all(np.diff(power) > 0.0)) and 0.0 <= share < 1.0
    text = f"{size.text}; example: {said}; {share:.1%} of the year above rated"
    return Measured(text, size.ok if ok else False)


def speed() -> Measured:
    """The flow's own bench."""
    found = flow_speed.measure()
    asked = found.map_points > 0
    shown = (
        f"map {found.map_points} points {found.map / found.response:.2f} responses" if asked else "map not measured"
    )
    text = (
        f"response {found.response:.2f} s on one core; {found.ratio:.1f} times the array kernels "
        f"({found.plain:.2f} s), difference {found.difference:.0e}; a sweep {found.sweep / found.solve:.1f} LAPACK "
        f"solves of order {found.order}; exponent {found.exponent:.2f}; {shown}"
    )
    ok = found.response < 3.0 and found.ratio >= 2.5 and found.difference < 1e-9 and found.exponent < 2.4
    if not asked:
        return Measured(text, None if ok else False)
    return Measured(text, ok and found.map <= 2.0 * found.response)


def smooth() -> Measured:
    """Second difference of CP over 200 points from standstill to runaway."""
    worst, anywhere, flags, points, silent = 0.0, 0.0, 0, 0, 0
    where = ""
    for seed in range(-1, MACHINES):
        one = example() if seed < 0 else machine(seed)
        stream = one.stage.unit.design.stream_speed
        found = sweep(one, stream, np.linspace(0.0, fastest(one, stream), STEPS))
        silent += len(found.unanswered)
        power = np.array([point.power_coefficient for point in found.points])
        bend = np.abs(np.diff(power, 2)) / power.max()
        clear = ~np.array([flagged(point) for point in found.points])[1:-1]
        flags, points = flags + int(np.sum(~clear)), points + clear.size
        anywhere = max(anywhere, float(bend.max()))
        if np.any(clear) and float(bend[clear].max()) > worst:
            worst = float(bend[clear].max())
            ratio = found.ratio[1:-1][clear][int(np.argmax(bend[clear]))]
            where = f"machine {seed} at tip-speed ratio {ratio:.2f}" if seed >= 0 else f"the example at {ratio:.2f}"
    text = (
        f"{worst:.3%} of CP max at most without a flag ({where}), {anywhere:.3%} anywhere; {flags} of {points} "
        f"points flagged (stall, extrapolation, closure), {silent} without answer; {MACHINES} random machines and "
        "the example"
    )
    return Measured(text, worst < 0.003 and silent == 0)


LINES = [
    Line(
        "stage-1",
        "mean-line identities 1e-9; worked stages; free vortex and radial equilibrium; contract of the row model",
        identities,
    ),
    Line("stage-2", "inside and angular book 1e-8 at every point; outside 0.5 % at solved loads", books, 6),
    Line(
        "stage-3",
        "roll moment = rho Q K to 1e-8; design below 5 % of shaft torque; runaway about twice, held about -3 times",
        moments,
        2,
    ),
    Line(
        "stage-4",
        "bare 0.8 m rotor against published figures",
        by_files("tests/external/test_stage_bare_rotor.py"),
        2,
    ),
    Line(
        "stage-5",
        "measured anchors; exit-area CP 0.25 to 0.60 for two ducts of area ratio 1.7 or less",
        by_files("tests/external/test_stage_anchors.py"),
        2,
    ),
    Line(
        "stage-6",
        "power grows with area; 1 m about 5 kW where fast; half a kilowatt; a megawatt; example's power and share",
        sizes,
        2,
    ),
    Line(
        "stage-7",
        "response 3 s, 2.5 times array kernels at 1e-9, exponent below 2.4, 400-point map two responses",
        speed,
        2,
    ),
    Line("stage-8", "second difference of CP over 200 points below 0.3 % where no flag stands", smooth, 6),
]
