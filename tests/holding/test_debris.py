"""Standing debris: loads, raft over time, weak link and drift."""

from __future__ import annotations

from dataclasses import replace
from math import radians

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from racewright.errors import InputError
from racewright.holding.debris_held import held_crown, held_trunk
from racewright.holding.debris_raft import DEEPEST, Raft, raft_loads, raft_size
from racewright.holding.debris_release import RetainingLine, WeakLink, release
from racewright.holding.debris_table import drag_coefficient
from racewright.holding.log_body import Log

TREE = Log(8.0, 0.4, 900.0, "submerged")
RAFT = Raft(2e-5, 0.5, 2.0, 8.0, 4.0)


def test_trunk_square_across() -> None:
    load = held_trunk(TREE, 2.5, (-3.0, 0.5, 0.8))
    force = 0.5 * 1000.0 * 6.25 * 1.2 * 8.0 * 0.4
    assert load.force == pytest.approx((force, 0.0, 0.0), abs=1e-9)
    assert load.along.low == pytest.approx(0.5 * force)
    assert load.along.high == pytest.approx(force)
    assert load.moment == pytest.approx(tuple(np.cross(load.point, load.force)))
    assert load.name == "held trunk"
    assert load.along.safety.caution
    assert "C_D" in load.along.safety.basis


def test_slanting_trunk() -> None:
    """Its force is the sum of the parts across and along its axis; turned over, the side force turns over."""
    a, b = (held_trunk(TREE, 2.0, (0.0, 0.0, 0.0), heading=radians(h)) for h in (60.0, -60.0))
    axis, square = np.array([np.cos(np.pi / 3), np.sin(np.pi / 3)]), np.array([-np.sin(np.pi / 3), np.cos(np.pi / 3)])
    across = 2000.0 * 1.2 * 8.0 * 0.4 * (2.0 / 2.0) ** 2 * abs(square[0]) * square[0] * square
    along = 2000.0 * 0.85 * 0.25 * np.pi * 0.16 * abs(axis[0]) * axis[0] * axis
    assert a.force[:2] == pytest.approx(tuple(across + along), rel=1e-9)
    assert b.force == pytest.approx((a.force[0], -a.force[1], 0.0))
    assert a.moment == pytest.approx((0.0, 0.0, 0.0))
    upright = held_trunk(replace(TREE, attitude="upright"), 2.0, (0.0, 0.0, 0.0), heading=0.3)
    assert upright.force[0] == pytest.approx(2000.0 * 1.2 * 8.0 * 0.4)


def test_moment_of_a_side_force() -> None:
    load = held_trunk(TREE, 2.0, (-2.0, 0.7, 0.4), heading=radians(50.0))
    assert load.moment == pytest.approx(tuple(np.cross(load.point, load.force)), rel=1e-12)


def test_crown() -> None:
    load = held_crown(3.0, 2.0, 2.0, (0.0, 0.0, 1.0))
    assert load.area == pytest.approx(np.pi * 1.5)
    assert load.along.high / load.along.low == pytest.approx(1.4 / 0.5)
    assert "no source" in load.along.safety.basis


def test_raft_grows_to_its_limits() -> None:
    """It starts at nothing, never shrinks, and stops at the longest piece and half the water's depth."""
    size = raft_size(RAFT, np.linspace(0.0, 60 * 86400.0, 500))
    assert (size.width[0], size.depth[0]) == (0.0, 0.0)
    assert np.all(np.diff(size.width) >= 0.0)
    assert size.width[-1] == pytest.approx(8.0)
    assert size.depth[-1] == pytest.approx(2.0)
    assert 0.0 < size.full_time < 60 * 86400.0
    assert replace(RAFT, water_depth=30.0).limits == (8.0, DEEPEST)


def test_raft_against_an_integration() -> None:
    """dV/dt = rate caught/share max(1, w/first), V = w d^2 in the limits' proportions."""
    wide, deep = RAFT.limits
    full = wide * deep**2

    def growth(_t: float, v: np.ndarray) -> np.ndarray:
        width = wide * np.cbrt(v / full)
        return 2e-5 * 0.5 / 0.3 * np.maximum(1.0, width / 2.0)

    times = np.array([1e4, 5e4, 2e5, 3.4e5])
    exact = solve_ivp(growth, (0.0, 3.4e5), [0.0], t_eval=times, rtol=1e-9, atol=1e-12, max_step=500.0).y[0]
    found = raft_size(RAFT, times)
    assert found.full_time > 3.4e5
    assert found.width * found.depth**2 == pytest.approx(exact, rel=1e-4)


def test_nothing_caught() -> None:
    size = raft_size(replace(RAFT, caught=0.0), [0.0, 1e9])
    assert size.width.tolist() == [0.0, 0.0]
    assert size.full_time == float("inf")


def test_raft_load_states() -> None:
    loads = raft_loads(RAFT, [0.0, 86400.0], 2.0, 1.5, x=-1.0)
    assert [one.name for one in loads] == ["raft after 0 h", "raft after 24 h", "full raft"]
    full = loads[-1]
    assert full.force[0] == pytest.approx(2000.0 * 1.4 * 16.0)
    assert full.point == (-1.0, 0.0, 0.5)
    assert full.moment[1] == pytest.approx(0.5 * full.force[0])
    assert loads[0].force[0] == 0.0


def test_the_link_holds() -> None:
    found = release([], WeakLink("shear pin", 1e4), 2.0, 1.0, 600.0)
    assert not found.parts
    assert found.where == "held"
    assert found.load.value == pytest.approx(2000.0)
    assert found.parting_speed == pytest.approx(2.0 * 5.0**0.5)


def test_adrift_without_a_second_line() -> None:
    found = release([held_trunk(TREE, 2.0, (0.0, 0.0, 0.0))], WeakLink("shear pin", 5e3), 2.0, 1.0, 600.0)
    assert found.parts
    assert found.where == "adrift"
    assert found.drift_speed == 2.0
    assert found.remarks[0].severity == "warning"
    assert "bridges" in found.remarks[0].text


def test_drift_to_the_retaining_line() -> None:
    """Time and speed over 4 m of slack against an integration, and so the tension when it snatches."""
    loads = [held_trunk(TREE, 2.0, (0.0, 0.0, 0.0))]
    line = RetainingLine(4.0, 8e3, 60e3)
    found = release(loads, WeakLink("shear pin", 5e3), 2.0, 1.0, 1500.0, retaining=line)
    assert found.drift_time is not None
    assert found.drift_speed is not None
    assert found.load_after is not None
    b = found.load.high / 4.0 / 1500.0

    def motion(_t: float, y: np.ndarray) -> list[float]:
        pull = max(y[0] - 4.0, 0.0) * 8e3 / 1500.0
        return [y[1], b * abs(2.0 - y[1]) * (2.0 - y[1]) - pull]

    run = solve_ivp(motion, (0.0, 12.0), [0.0, 0.0], rtol=1e-9, atol=1e-10, max_step=0.01)
    passed = int(np.argmax(run.y[0] >= 4.0))
    assert found.drift_time == pytest.approx(run.t[passed], abs=0.02)
    assert found.drift_speed == pytest.approx(run.y[1][passed], abs=0.01)
    greatest = 8e3 * (run.y[0].max() - 4.0)
    assert found.load_after.high == pytest.approx(greatest, rel=1e-4)
    assert found.load_after.low == found.load.low
    assert found.where == "on the retaining line"
    assert found.rest == pytest.approx(4.0 + found.load.value / 8e3)  # type: ignore[operator]


def test_a_weak_retaining_line_parts_too() -> None:
    loads = [held_trunk(TREE, 2.0, (0.0, 0.0, 0.0))]
    found = release(loads, WeakLink("pin", 5e3), 2.0, 1.0, 1500.0, retaining=RetainingLine(4.0, 8e3, 9e3))
    assert found.where == "adrift"
    assert [r.about for r in found.remarks] == ["weak link", "retaining line"]


def test_doors() -> None:
    with pytest.raises(InputError, match="coefficient"):
        drag_coefficient("nothing")
    with pytest.raises(InputError):
        held_trunk(TREE, float("nan"), (0.0, 0.0, 0.0))
    with pytest.raises(InputError):
        held_trunk(TREE, 2.0, (0.0, float("inf"), 0.0))
    with pytest.raises(InputError, match="x, y and z"):
        held_crown(1.0, 1.0, 2.0, (0.0, 0.0))  # type: ignore[arg-type]
    with pytest.raises(InputError):
        raft_size(RAFT, [-1.0])
    with pytest.raises(InputError, match="no drag at all"):
        release([], WeakLink("pin", 5e3), 2.0, 0.0, 1500.0)
    with pytest.raises(InputError):
        WeakLink("pin", float("nan"))
    with pytest.raises(InputError):
        RetainingLine(-1.0, 1e3, 1e3)
