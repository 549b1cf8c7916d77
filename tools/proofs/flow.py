"""The flow: bodies, bare disc, ducts, random machines, walls, at full counts."""

from __future__ import annotations

import math
from itertools import product

import numpy as np
from tests.external.test_flow_bodies import COUNTS, area_weighted_error, spheroid
from tests.external.test_flow_channel import closed_channel
from tests.flow.random_machines import outcome

from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.bare_disc import bare_disc
from racewright.flow.forces import momentum_force
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour, throat_x
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_contour
from tools.proofs.line import Line, Measured, run_tests

LOADS = (0.0, 0.1, 0.3, 0.6, 0.8)


def bodies() -> Measured:
    """Sphere and spheroid, and the vortex cylinder by the suite."""
    said, ok = [], True
    for fineness in (1.0, 4.0):
        radius, speed, exact = spheroid(fineness, 80)
        off = np.abs(speed / exact - 1.0)
        errors = np.array([area_weighted_error(fineness, count) for count in COUNTS])
        order = float(np.log2(errors[:-1] / errors[1:]).min())
        clear, near = off[radius > 0.1].max(), off[radius <= 0.1].max()
        ok = ok and clear < 2e-3 and near < 1e-2 and order >= 1.8
        said.append(f"{fineness:g}:1 {clear:.3%}, near the axis {near:.3%}, lowest order {order:.2f}")
    passed, failed, _ = run_tests("tests/external/test_flow_kernels.py")
    return Measured("; ".join([*said, f"{passed} kernel checks pass"]), ok and not failed)


def disc() -> Measured:
    """Three meshes, and the finest with twice the near wake."""
    loads = (0.0, 0.1, 0.3, 0.6, 0.8, 8.0 / 9.0)
    exact = 0.5 * (1.0 + np.sqrt(1.0 - np.array(loads)))
    said, worst, ok = [], [], True
    for panels, reach in ((40, 40.0), (80, 40.0), (160, 40.0), (40, 12.0), (60, 24.0)):
        one = bare_disc(loads, wake_panels=panels, reach=reach)
        off = np.abs(one.speed_ratio / exact - 1.0)
        ok = ok and bool(one.converged.all())
        worst.append(float(off[1:].max()))
        said.append(f"{panels} panels over {reach:g} R {off[4]:.3%} at 0.8, {off[5]:.3%} at 8/9")
        if reach == 40.0:
            ok = ok and bool(off[:5].max() < 1e-3 and off[5] < 3e-3)
    ok = ok and worst[0] >= worst[1] >= worst[2] and worst[3] > worst[4]
    return Measured("; ".join(said), ok)


def ducts() -> Measured:
    """Momentum against pressures over a grid of ducts, at 80 and 160 panels a side."""
    worst, ratios, empty = 0.0, [], {80: 0.0, 160: 0.0}
    for ratio, thickness, hubbed in product((1.15, 1.6, 2.2), (0.08, 0.18), (False, True)):
        duct = Duct(0.5, ratio, 0.7, thickness)
        hub_shape = Hub(0.12, -0.1, 0.2, 0.3, 0.4)
        error = {}
        for panels in (80, 160):
            x, r = duct_contour(duct, panels)
            hub_x, hub_r = hub_contour(hub_shape, panels) if hubbed else (None, None)
            flow = axisymmetric(x, r, rotor_x=throat_x(duct), hub_x=hub_x, hub_r=hub_r, head_coefficients=LOADS)
            if not flow.converged.all() or flow.converged.size != len(LOADS):
                return Measured(f"{duct} did not converge", False)
            asked = momentum_force(flow.head_coefficient, flow.speed_ratio)
            error[panels] = np.abs(flow.duct_force + flow.hub_force - asked)
            bar = np.maximum(0.005 * flow.head_coefficient, 0.004 * (80.0 / panels) ** 2)
            worst = max(worst, float(np.max(error[panels] / bar)))
            empty[panels] = max(empty[panels], float(error[panels][0]))
        large = error[80] > 1e-3
        ratios += list(error[80][large] / error[160][large])
    span = f"{min(ratios):.2f} to {max(ratios):.2f}" if ratios else "none above 1e-3"
    passed, failed, _ = run_tests("tests/external/test_flow_ducts.py")
    ok = worst <= 1.0 and all(3.0 <= one <= 5.0 for one in ratios) and empty[80] < 0.005 and empty[160] < 0.00125
    text = f"worst error {worst:.2f} of its bar; ratios {span}; empty {empty[80]:.5f} at 80, {empty[160]:.5f} at 160"
    return Measured(f"{text}; {passed} checks of reference ducts and tubes pass", ok and not failed)


def machines() -> Measured:
    """500 random machines, 12 loads, 40 panels a side."""
    found = [outcome(seed, 40) for seed in range(500)]
    good = sum(one.converged for one in found)
    worst = max(one.mismatch for one in found)
    dumb = sum(not one.converged and not one.why for one in found)
    ok = good >= 495 and worst < 1.0 and not dumb and all(one.finite for one in found)
    passed, failed, _ = run_tests("tests/flow/test_response.py")
    text = f"{good} of 500 converge to 1e-9, the rest clog and say so; worst mismatch {worst:.2f} of its bar"
    return Measured(f"{text}; {passed} checks of the closure pass", ok and not failed)


def walls() -> Measured:
    """Bare disc in round channels."""
    loads = (0.0, 0.3, 0.6, 0.8)
    off, moved = 0.0, 0.0
    for blockage in (0.05, 0.1, 0.2):
        one = bare_disc(loads, channel_radius=blockage**-0.5)
        longer = bare_disc(loads, reach=80.0, channel_radius=blockage**-0.5, channel_ahead=8.0)
        exact = np.array([closed_channel(load, blockage) for load in loads[1:]])
        off = max(off, float(np.abs(one.speed_ratio[1:] / exact - 1.0).max()))
        moved = max(moved, float(np.abs(longer.speed_ratio / one.speed_ratio - 1.0).max()))
    wide = bare_disc(loads, channel_radius=math.sqrt(1000.0)).speed_ratio / bare_disc(loads).speed_ratio - 1.0
    text = f"{off:.3%} of theory; doubled wall {moved:.4%}; blockage 0.001 {np.abs(wide).max():.3%} of open"
    return Measured(text, off < 1e-2 and moved < 1e-3 and bool(np.abs(wide).max() < 1e-3))


LINES = [
    Line("flow-1", "sphere, spheroid 0.2 % (1 % near the axis), order 1.8; vortex cylinder 1e-6", bodies, 1),
    Line("flow-2", "bare disc (1+w)/2 within 0.1 % to 0.8, 0.3 % at 8/9, falling with refinement", disc, 2),
    Line("flow-3", "momentum identity, 80 and 160 panels a side; empty, reference ducts, tubes", ducts, 12),
    Line("flow-4", "99 % of 500 machines converge, none breaks the bar, closure continuous to 0.5 %", machines, 12),
    Line("flow-5", "channel wall 1 % of theory; doubled wall 0.1 %; blockage 0.001 within 0.1 %", walls, 2),
]
