"""What every row model must keep, run on each named implementation."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.stage.row_model import Inflow, Response, RowModel, Slice, response
from racewright.stage.thin_row import ROW_MODELS

Floats = NDArray[np.float64]
NAMES = sorted(ROW_MODELS)
ANGLES = np.radians(np.linspace(-89.0, 89.0, 3561))


@pytest.fixture(params=NAMES)
def model(request: pytest.FixtureRequest) -> RowModel:
    return ROW_MODELS[request.param]


def _sections(
    size: int, *, solidity: float = 0.8, stagger: float = -40.0, camber: float = -15.0, rough: float = 0.0
) -> Slice:
    one = np.ones(size)
    return Slice(
        solidity * one, np.radians(stagger) * one, np.radians(camber) * one, 0.1 * one, rough * one, 0.0 * one
    )


def _ask(model: RowModel, sections: Slice, angle: Floats, reynolds: float = 5e5) -> Response:
    return response(model, sections, Inflow(angle, np.full(angle.shape, reynolds), 0.05))


@pytest.mark.parametrize("solidity", [0.0, 0.3, 1.0, 3.0])
@pytest.mark.parametrize(("stagger", "camber"), [(-60.0, -8.0), (15.0, 30.0), (0.0, 0.0), (40.0, -20.0)])
def test_no_nan_and_drag_positive(model: RowModel, solidity: float, stagger: float, camber: float) -> None:
    for reynolds in (1.0, 1e3, 1e5, 1e8):
        for rough in (0.0, 1e-6, 1e-2, 1.0):
            sections = _sections(1, solidity=solidity, stagger=stagger, camber=camber, rough=rough)
            found = _ask(model, sections, ANGLES, reynolds)
            assert np.all(np.isfinite(found.circulation))
            assert np.all(np.isfinite(found.profile_drag))
            assert np.all(found.profile_drag > 0.0)
            assert np.all(found.drag_band > 0.0)
            assert (found.cp_min is None) == (found.cp_min_reason != "")
            assert len(found.state) == ANGLES.size


def test_continuous_in_angle(model: RowModel) -> None:
    """Halving the step of the angle halves the largest jump: nothing leaps, attached or stalled."""
    jumps = []
    for count in (3561, 7121):
        angle = np.radians(np.linspace(-89.0, 89.0, count))
        found = _ask(model, _sections(1), angle)
        jumps.append((np.max(np.abs(np.diff(found.circulation))), np.max(np.abs(np.diff(found.profile_drag)))))
    for coarse, fine in zip(*jumps, strict=True):
        assert fine == pytest.approx(0.5 * coarse, rel=0.03)


def test_continuous_in_reynolds(model: RowModel) -> None:
    reynolds = np.geomspace(1e2, 1e9, 20001)
    angle = np.radians(np.full(reynolds.shape, -45.0))
    drag = response(model, _sections(1), Inflow(angle, reynolds, 0.001)).profile_drag
    assert np.max(np.abs(np.diff(np.log(drag)))) < 5e-3


def test_alone_as_pitch_grows(model: RowModel) -> None:
    """The row tends to the section alone as (chord/pitch)^2."""
    angle = np.radians(np.array([-44.0, -38.0, -60.0]))
    alone = _ask(model, _sections(1, solidity=0.0), angle).circulation
    gaps = [
        np.max(np.abs(_ask(model, _sections(1, solidity=s), angle).circulation - alone)) for s in (0.04, 0.02, 0.01)
    ]
    assert gaps[2] < 1e-4
    assert gaps[0] / gaps[1] == pytest.approx(4.0, rel=0.1)
    assert gaps[1] / gaps[2] == pytest.approx(4.0, rel=0.1)


def test_mirror(model: RowModel) -> None:
    """Stagger, camber and angle with the other sign turn the other way and drag the same."""
    one = _ask(model, _sections(1, stagger=-40.0, camber=-15.0), ANGLES)
    other = _ask(model, _sections(1, stagger=40.0, camber=15.0), -ANGLES)
    assert one.circulation == pytest.approx(-other.circulation, abs=1e-14)
    assert one.profile_drag == pytest.approx(other.profile_drag, abs=1e-15)
    assert one.state == other.state


def test_mean_angle_has_one_root(model: RowModel) -> None:
    """t - t_in - turning/2 rises with t at every solidity up to 2, so the row has one state."""
    t = np.tan(np.radians(np.linspace(-88.0, 88.0, 8001)))
    for solidity in (0.2, 1.0, 2.0):
        for stagger, camber in ((-60.0, -8.0), (-20.0, -30.0), (15.0, 30.0)):
            sections = _sections(1, solidity=solidity, stagger=stagger, camber=camber)
            found = _ask(model, sections, np.arctan(t))
            turning = solidity * np.sqrt(1.0 + t**2) * (found.circulation - 0.5 * found.profile_drag * t)
            assert np.all(np.diff(t - 0.5 * turning) > 0.0)


def test_stall_is_said(model: RowModel) -> None:
    far = _ask(model, _sections(1), np.radians(np.array([-80.0])))
    near = _ask(model, _sections(1), np.radians(np.array([-42.0])))
    assert far.state == ("stalled",)
    assert near.state == ("attached",)
    assert far.drag_band[0] > near.drag_band[0]


def test_refuses_nonsense() -> None:
    with pytest.raises(InputError, match="stagger"):
        _sections(2, stagger=float("nan"))
    with pytest.raises(InputError, match="chord_over_pitch"):
        _sections(2, solidity=-0.1)
