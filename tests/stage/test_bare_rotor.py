"""Open rotor: momentum theory's limits, books by separate routes, loss at the ends, refusals."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from racewright.errors import InputError, NoAnswerError
from racewright.flow.closure import open_speed
from racewright.stage.annulus_momentum import disc_load, slowing
from racewright.stage.bare_blades import BareBlades
from racewright.stage.bare_result import BareRotor
from racewright.stage.bare_rotor import bare_rotor
from racewright.stage.prandtl_loss import prandtl_loss
from racewright.stage.row_model import FittedRow, Inflow, Response, Slice
from tests.stage.machines import FRESH

Floats = NDArray[np.float64]


class ConstantLift:
    """Row model in a fluid without friction: the lift coefficient is 1 at every angle."""

    def fit(self, sections: Slice) -> FittedRow:
        return self

    def response(self, inflow: Inflow) -> Response:
        shape = np.broadcast(inflow.mean_angle, inflow.reynolds).shape
        zero, no = np.zeros(shape), np.zeros(shape, dtype=bool)
        return Response(zero + 0.5, zero, None, "no thickness", no, no, zero, zero)


def blades(count: int = 3, *, pitch: float = 3.0, solidity: float = 1.0) -> BareBlades:
    """An invented rotor of 2 m diameter."""
    share = np.linspace(0.2, 1.0, 9)
    twist = np.degrees(np.arctan(2.0 / 3.0 / (5.0 * share)))
    return BareBlades(
        count,
        share,
        solidity * 3.0 / count * np.linspace(0.25, 0.1, 9),
        np.radians(twist - 6.0 + pitch),
        np.linspace(0.22, 0.12, 9),
        np.full(9, -0.07),
    )


def _optimum(ratio: float, share: Floats, hub: float) -> tuple[BareBlades, float]:
    """Glauert's best rotor at a tip-speed ratio, of ConstantLift sections, and its power coefficient by quadrature.

    x^2 = (1 - a)(4a - 1)^2/(1 - 3a), a' = (1 - 3a)/(4a - 1) (Glauert 1935), both from making
    a'(1 - a) x^3 largest under a'(1 + a') x^2 = a(1 - a).
    """

    def induction(x: Floats) -> Floats:
        low, high = np.full(x.shape, 0.25), np.full(x.shape, 1.0 / 3.0)
        for _ in range(80):
            a = 0.5 * (low + high)
            small = (1.0 - a) * (4.0 * a - 1.0) ** 2 < x**2 * (1.0 - 3.0 * a)
            low, high = np.where(small, a, low), np.where(small, high, a)
        found: Floats = 0.5 * (low + high)
        return found

    x = ratio * share
    a = induction(x)
    swirl = (1.0 - 3.0 * a) / (4.0 * a - 1.0)
    phi = np.arctan2(1.0 - a, x * (1.0 + swirl))
    part = 4.0 * a * np.sin(phi) ** 2 / ((1.0 - a) * np.cos(phi))
    count = 10_000_000
    node, weight = np.polynomial.legendre.leggauss(200)
    x = ratio * (hub + 0.5 * (1.0 - hub) * (1.0 + node))
    a = induction(x)
    swirl = (1.0 - 3.0 * a) / (4.0 * a - 1.0)
    power = 8.0 / ratio**2 * np.sum(0.5 * ratio * (1.0 - hub) * weight * swirl * (1.0 - a) * x**3)
    nothing = np.zeros(share.shape)
    return BareBlades(count, share, 2.0 * np.pi * share * part / count, nothing, nothing + 0.1, nothing), float(power)


@pytest.mark.parametrize(
    ("ratio", "table"), [(0.5, 0.288), (1.0, 0.416), (1.5, 0.480), (2.0, 0.512), (2.5, 0.532), (5.0, 0.570)]
)
def test_many_light_blades_are_glauerts_best_rotor(ratio: float, table: float) -> None:
    """Without drag, of very many blades. `table` as printed by Glauert (from memory; without a hub, and 0.480 at
    1.5 where the integral gives 0.477).
    """
    rotor, power = _optimum(ratio, np.linspace(0.02, 1.0, 400), 0.02)
    found = bare_rotor(rotor, FRESH, 2.0, ratio, model=ConstantLift())
    assert found.power_coefficient[0] == pytest.approx(power, abs=2e-5)
    assert found.power_coefficient[0] == pytest.approx(table, abs=3e-3)
    assert np.max(np.abs(found.loss_factor - 1.0)) < 1e-3


def test_fast_light_blades_tend_to_betz() -> None:
    rotor, power = _optimum(30.0, np.linspace(0.02, 1.0, 400), 0.02)
    found = bare_rotor(rotor, FRESH, 2.0, 30.0, model=ConstantLift())
    assert found.power_coefficient[0] == pytest.approx(power, abs=2e-5)
    assert 16.0 / 27.0 - 2e-3 < found.power_coefficient[0] < 16.0 / 27.0
    assert found.thrust_coefficient[0] == pytest.approx(8.0 / 9.0, abs=2e-3)


@pytest.mark.parametrize("hub_loss", [False, True])
def test_books_close_by_separate_routes(hub_loss: bool) -> None:
    """Blade forces on one side, speeds in the wake on the other, from stalled to the turbulent wake."""
    ratio = np.linspace(0.5, 10.0, 20)
    found = bare_rotor(blades(), FRESH, 2.0, ratio, hub_loss=hub_loss)
    assert np.any(found.stalled)
    assert np.any(found.turbulent_wake)
    assert np.max(np.abs(found.energy_gap)) < 1e-8
    assert np.max(np.abs(found.moment_gap)) < 1e-8
    assert np.max(np.abs(found.thrust_gap)) < 1e-8
    assert np.all(found.drag_loss > 0.0)


def test_loads_by_radius_make_thrust_and_torque() -> None:
    """Trapezoid sums over the reported radii, with the ends at nothing, come near the coefficients."""
    found = bare_rotor(blades(), FRESH, 2.0, 5.0, stations=200)
    force = 0.5 * FRESH.density * 4.0 * np.pi
    radius = np.concatenate([[0.2], found.radius, [1.0]])
    pad = np.pad(found.axial_load[0], 1, mode="edge"), np.pad(found.tangential_load[0] * found.radius, 1, mode="edge")
    assert 3.0 * np.trapezoid(pad[0], radius) == pytest.approx(found.thrust_coefficient[0] * force, rel=1e-3)
    assert 3.0 * np.trapezoid(pad[1], radius) == pytest.approx(found.torque_coefficient[0] * force, rel=1e-3)


def test_loss_at_the_ends_goes_as_blades_are_added() -> None:
    """At equal solidity 1 - F at the middle goes away, and power grows towards that of endless blades."""
    many = [bare_rotor(blades(count), FRESH, 2.0, 5.0) for count in (2, 3, 6, 12, 100, 1000, 100_000)]
    short = [1.0 - float(one.loss_factor[0, 16]) for one in many]
    assert np.all(np.diff(short[:5]) < 0.0)
    assert short[-1] < 1e-12
    mean = [1.0 - float(np.mean(one.loss_factor)) for one in many]
    assert mean[-1] < 5e-3
    assert np.all(np.diff(mean) < 0.0)
    power = [float(one.power_coefficient[0]) for one in many[:4]]
    assert np.all(np.diff(power) > 0.0)


def test_loss_factor_by_hand() -> None:
    """B 3, r/R 0.8, sin phi 0.25: f = 1.5, arccos(exp(-1.5)) = 1.34577, F = 0.85674; hub likewise at r/r_hub 1.25."""
    one = np.array([0.8]), np.array([0.25])
    assert prandtl_loss(3, one[0], 0.2, 1.0, one[1], hub_loss=False)[0] == pytest.approx(0.85674, abs=1e-5)
    both = prandtl_loss(3, np.array([0.8]), 0.64, 1.0, np.array([0.25]), hub_loss=True)[0]
    assert both == pytest.approx(0.85674**2, abs=2e-5)


def test_heavy_load_is_the_open_discs_relation() -> None:
    for load in (-0.5, 0.0, 0.3, 0.8, 0.96, 1.2, 1.7, 1.99):
        speed = open_speed(load)
        assert 1.0 / float(slowing(np.array(load / (4.0 * speed**2)))) == pytest.approx(speed, abs=1e-12)
        assert float(disc_load(np.array(1.0 - speed))) == pytest.approx(load, abs=1e-12)


def test_continuous_in_tip_speed_ratio() -> None:
    """Half the step, half the largest jump of the inflow angle at any radius: one root, followed throughout."""
    jumps = []
    for count in (101, 201, 401):
        found = bare_rotor(blades(), FRESH, 2.0, np.linspace(1.0, 9.0, count), stations=16)
        jumps.append(np.max(np.abs(np.diff(found.inflow_angle, axis=0))))
    assert jumps[1] / jumps[0] == pytest.approx(0.5, abs=0.05)
    assert jumps[2] / jumps[1] == pytest.approx(0.5, abs=0.05)


def test_radii_suffice() -> None:
    """Gauss points in the half circle's angle: from 32 radii on the power changes by less than 2e-4."""
    fine = bare_rotor(blades(), FRESH, 2.0, 5.0, stations=150).power_coefficient[0]
    miss = [abs(bare_rotor(blades(), FRESH, 2.0, 5.0, stations=n).power_coefficient[0] - fine) for n in (16, 32, 64)]
    assert miss[1] < 2e-4
    assert miss[2] < miss[0]


def test_bands_hold_the_value_and_widen_below_2e5() -> None:
    small, large = (bare_rotor(blades(), FRESH, speed, np.array([4.0, 6.0])) for speed in (0.3, 6.0))
    for one in (small, large):
        assert np.all(one.power_low < one.power_coefficient)
        assert np.all(one.power_coefficient < one.power_high)
        # Drag hardly changes thrust: this width is the angle band's, about a degree on some ten.
        assert np.all(one.thrust_coefficient - one.thrust_low > 0.02)
        assert np.all(one.thrust_high - one.thrust_coefficient > 0.02)
    assert np.all((small.power_high - small.power_low) > (large.power_high - large.power_low))
    assert "Reynolds number" in [r.about for r in small.remarks]
    assert "Reynolds number" not in [r.about for r in large.remarks]


def test_stalled_and_overloaded_points_are_said() -> None:
    slow = bare_rotor(blades(), FRESH, 2.0, 1.0)
    assert "stall" in [r.about for r in slow.remarks]
    fast = bare_rotor(blades(pitch=0.0, solidity=2.0), FRESH, 2.0, 12.0)
    assert fast.beyond_reach.tolist() == [True]
    assert any(r.about == "load" and r.severity == "warning" for r in fast.remarks)


def test_blades_that_stop_the_stream_are_refused() -> None:
    """Without drag no turbine state is left once the blades' push passes an open disc's most."""
    heavy = replace(blades(), chord=np.full(9, 1.0))
    with pytest.raises(NoAnswerError, match="stop the stream"):
        bare_rotor(heavy, FRESH, 2.0, 9.0, model=ConstantLift())


@pytest.mark.parametrize(
    ("key", "value"),
    [("stream_speed", float("nan")), ("stream_speed", 0.0), ("turbulence", 0.5), ("roughness", float("inf"))],
)
def test_refuses_numbers_out_of_range(key: str, value: float) -> None:
    given = {"stream_speed": 2.0, "turbulence": 0.1, "roughness": 0.0} | {key: value}
    speed = given.pop("stream_speed")
    with pytest.raises(InputError) as caught:
        bare_rotor(blades(), FRESH, speed, 5.0, turbulence=given["turbulence"], roughness=given["roughness"])
    assert caught.value.key == key


@pytest.mark.parametrize("ratio", [float("nan"), 0.0, 31.0])
def test_refuses_tip_speed_ratios(ratio: float) -> None:
    with pytest.raises(InputError):
        bare_rotor(blades(), FRESH, 2.0, np.array([5.0, ratio]))


@pytest.mark.parametrize("key", ["radius", "chord", "pitch", "thickness", "zero_lift"])
def test_refuses_blades(key: str) -> None:
    given = blades()
    values = getattr(given, key).copy()
    values[4] = np.nan
    with pytest.raises(InputError) as caught:
        replace(given, **{key: values})
    assert caught.value.key == key
    with pytest.raises(InputError):
        replace(given, count=0)
    with pytest.raises(InputError):
        replace(given, chord=given.chord[:-1])


def test_vectors_and_single_ratios_agree() -> None:
    many = bare_rotor(blades(), FRESH, 2.0, np.array([3.0, 5.0, 7.0]))
    one: BareRotor = bare_rotor(blades(), FRESH, 2.0, 5.0)
    assert one.power_coefficient[0] == pytest.approx(many.power_coefficient[1], abs=1e-12)
