"""Radial equilibrium within the stage: at its few stations, at the discs, and where it asks too much."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.stage.annulus import annulus
from racewright.stage.design import design_rows
from racewright.stage.radial_equilibrium import kept_flow, radial_equilibrium
from racewright.stage.two_rows import disc_speeds
from tests.stage.machines import FRESH, flow, unit

Floats = NDArray[np.float64]
FLOW = flow()
VANES, BLADES = design_rows(unit(), FLOW, FRESH)
STATIONS = annulus(FLOW, VANES, BLADES)
BASE = np.full((1, STATIONS.radius.size), 2.0)
NONE = np.zeros_like(BASE)


def _far(swirl: Floats, lost: Floats) -> tuple[Floats, Floats]:
    """Far behind the vanes at the stage's stations, and by a fine grid over the blades' span."""
    at_vanes, _ = disc_speeds(STATIONS, BASE, swirl, lost, swirl, lost, 0.0)
    return 2.0 * at_vanes[0] - BASE[0], STATIONS.radius


@pytest.mark.parametrize("power", [-1.0, 0.0, 1.0, 2.0])
def test_few_stations_give_what_a_fine_grid_gives(power: float) -> None:
    """Cth = 1.2 (r/R)^n with lost head that grows outwards, no gap: 8 Gauss points against 400 radii."""
    even = annulus(FLOW, VANES, VANES)
    fine = np.linspace(0.15, 0.5, 400)
    base = np.full((1, even.radius.size), 2.0)
    swirl, lost = 1.2 * (even.radius / 0.5) ** power, 0.5 * even.radius
    at_vanes, _ = disc_speeds(even, base, swirl[None, :], lost[None, :], swirl[None, :], lost[None, :], 0.0)
    far = 2.0 * at_vanes[0] - 2.0
    exact = radial_equilibrium(fine, 1.2 * (fine / 0.5) ** power, -0.5 * fine, 2.0)
    assert far[even.shown] == pytest.approx(np.interp(even.radius[even.shown], fine, exact), rel=2e-5)


def test_free_vortex_changes_nothing() -> None:
    far, radius = _far(0.4 / STATIONS.radius[None, :], NONE)
    assert far == pytest.approx(np.full(radius.size, 2.0), rel=1e-9)


def test_rows_share_the_change() -> None:
    """Half of each row's own, all of the vanes' at blades far away, half of it where the rows stand together."""
    swirl = 2.0 * STATIONS.radius[None, :]
    after, _ = _far(swirl, NONE)
    change = after - 2.0
    for reach, at_vanes, at_blades in ((0.0, 0.5, 1.0), (1.0, 0.5, 0.5), (0.4, 0.5, 0.8)):
        first, second = disc_speeds(STATIONS, BASE, swirl, NONE, swirl, NONE, reach)
        assert first[0] - 2.0 == pytest.approx(at_vanes * change, abs=1e-12)
        assert second[0] - 2.0 == pytest.approx(at_blades * change, abs=1e-12)


def test_flow_is_kept_and_positive_whatever_is_asked() -> None:
    area = STATIONS.area
    for size in (0.1, 3.0, 100.0):
        speed = kept_flow(BASE, size * (STATIONS.radius - 0.3)[None, :] * 10.0, area)
        assert np.all(speed > 0.0)
        assert np.sum(speed[0] * area) == pytest.approx(2.0 * np.sum(area), rel=1e-12)


def test_one_constant_serves_every_station() -> None:
    """c^2 - c0^2 - 2 gain is the same everywhere, and the flow that of c0; many points as one alone, to the byte."""
    rng = np.random.default_rng(7)
    area = STATIONS.area
    base = rng.uniform(1.0, 3.0, (40, area.size))
    gain = 0.2 * rng.uniform(-1.0, 1.0, base.shape)
    speed = kept_flow(base, gain, area)
    constant = 0.5 * (speed**2 - base**2) - gain
    assert np.max(np.ptp(constant, axis=1)) < 1e-12
    assert speed @ area == pytest.approx(base @ area, rel=1e-13)
    assert kept_flow(base[9:10], gain[9:10], area).tobytes() == speed[9:10].tobytes()


def test_refusals() -> None:
    radius = np.linspace(0.2, 1.0, 9)
    for r, swirl, mean in (
        (radius[::-1], radius, 1.0),
        (radius - 0.2, radius, 1.0),
        (radius, radius[:-1], 1.0),
        (radius, radius, 0.0),
        (radius, np.full(9, np.nan), 1.0),
    ):
        with pytest.raises(InputError):
            radial_equilibrium(r, swirl, np.zeros(9), mean)
