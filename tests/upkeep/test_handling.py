"""Weights of pieces, what carries them, and the pull that brings a machine out."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.upkeep.carrying import Carrying, carried
from racewright.upkeep.pieces import GRAVITY, LiftedPiece, piece_weights
from racewright.upkeep.recovery import recovery_pull

DUCT = LiftedPiece("duct half", 120.0, 1.4, 0.8, 0.5, hollow_volume=0.2, solid_volume=0.08)
HUB = LiftedPiece("hub", 90.0, 0.9, 0.3, 0.3, solid_volume=0.03)


def test_weights_by_hand() -> None:
    found = piece_weights(DUCT, 1000.0, 1600.0)
    assert (found.dry, found.drained, found.wet, found.mud_filled) == pytest.approx((120.0, 126.0, 320.0, 440.0))
    assert found.in_water == pytest.approx(GRAVITY * 40.0)
    assert found.in_water_mud == pytest.approx(GRAVITY * (40.0 + 120.0))
    assert found.longest == 1.4


@given(st.floats(0.1, 1e4), st.floats(0.0, 10.0), st.floats(900.0, 1100.0), st.floats(1100.0, 2000.0))
def test_mud_is_heaviest_and_dry_lightest(mass, hollow, water, mud) -> None:
    found = piece_weights(replace(DUCT, dry_mass=mass, hollow_volume=hollow), water, mud)
    assert found.dry <= found.drained <= found.wet <= found.mud_filled
    assert found.in_water <= found.in_water_mud


def test_pieces_against_the_means_of_transport() -> None:
    plane = Carrying("small plane", 150.0, (0.9, 0.9, 1.3))
    canoe = Carrying("canoe", 400.0, None, "dry")
    hoist = Carrying("hoist", 300.0, None, "mud_filled")
    found = carried((DUCT, HUB), (plane, canoe, hoist), 1000.0)
    by_plane, by_canoe, by_hoist = found.rows
    assert (by_plane.heaviest, by_plane.longest, by_plane.mass_left) == (
        "duct half",
        "duct half",
        pytest.approx(24.0),
    )
    assert by_plane.refused == ("duct half (0.5 x 0.8 x 1.4 m in 0.9 x 0.9 x 1.3 m)",)
    assert by_canoe.refused == ()
    assert "440 kg mud filled" in by_hoist.refused[0]
    assert by_hoist.mass_left == pytest.approx(-140.0)
    assert [remark.about for remark in found.remarks] == ["lifting", "transport", "transport"]
    assert "licensed" in found.remarks[0].text


def test_a_piece_is_turned_to_fit() -> None:
    tight = Carrying("crate", 1e3, (1.4, 0.5, 0.8))
    assert carried((DUCT,), (tight,), 1000.0).rows[0].refused == ()
    assert carried((replace(DUCT, height=0.51),), (tight,), 1000.0).rows[0].refused


def test_what_floats_is_said() -> None:
    found = carried((replace(HUB, solid_volume=0.2),), (), 1000.0)
    assert found.remarks[-1].about == "buoyancy"


def test_pull_by_hand() -> None:
    """1/2 x 1000 x 1.5 x 2.25 = 1687.5 N at 1.5 m/s; hauled at 0.5 m/s, 3000 N."""
    still = recovery_pull(1.5, 1.5, 1000.0)
    assert (still.pull, still.power) == pytest.approx((1687.5, 0.0))
    hauled = recovery_pull(1.5, 1.5, 1000.0, hauling_speed=0.5, debris_drag_area=0.5)
    assert (hauled.drag, hauled.debris_drag) == pytest.approx((3000.0, 1000.0))
    assert hauled.power == pytest.approx(2000.0)
    assert still.remarks[0].about == "recovery"


def test_up_a_slope_and_straight_up() -> None:
    slope = recovery_pull(0.0, 0.0, 1000.0, weight_in_water=1000.0, slope=math.radians(30.0), friction=0.5)
    assert (slope.weight_part, slope.friction_part) == pytest.approx((500.0, 500.0 * math.cos(math.radians(30.0))))
    lift = recovery_pull(0.0, 0.0, 1000.0, weight_in_water=1000.0, slope=0.5 * math.pi, friction=0.5)
    assert lift.pull == pytest.approx(1000.0)


@given(st.floats(0.01, 50.0), st.floats(0.0, 2.0), st.floats(0.0, 1e4), st.floats(1.0, 1e6))
def test_at_the_greatest_speed_the_pull_is_the_winchs(area, haul, weight, winch) -> None:
    more = {"hauling_speed": haul, "weight_in_water": weight, "slope": 0.3, "friction": 0.4, "winch": winch}
    found = recovery_pull(area, 0.0, 1000.0, **more)
    if found.greatest_speed is None:
        assert found.pull >= winch * (1.0 - 1e-9)
        assert any(r.about == "winch" for r in found.remarks) or found.pull <= winch * (1.0 + 1e-9)
    elif found.greatest_speed < 20.0:
        assert recovery_pull(area, found.greatest_speed, 1000.0, **more).pull == pytest.approx(winch)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: replace(DUCT, dry_mass=0.0), "dry mass"),
        (lambda: replace(DUCT, length=math.inf), "length"),
        (lambda: replace(DUCT, hollow_volume=-1.0), "hollow"),
        (lambda: piece_weights(DUCT, 500.0), "density of water"),
        (lambda: piece_weights(DUCT, 1000.0, 900.0), "density of mud"),
        (lambda: Carrying("x", 0.0), "greatest mass"),
        (lambda: Carrying("x", 1.0, None, "wettish"), "wanted dry"),
        (lambda: carried((), (), 1000.0), "missing"),
        (lambda: carried((HUB, HUB), (), 1000.0), "each named once"),
        (lambda: recovery_pull(-1.0, 1.0, 1000.0), "drag area"),
        (lambda: recovery_pull(1.0, math.nan, 1000.0), "stream speed"),
        (lambda: recovery_pull(1.0, 1.0, 1000.0, slope=2.0), "slope"),
        (lambda: recovery_pull(1.0, 1.0, 1000.0, winch=0.0), "winch"),
    ],
)
def test_bad_input_is_refused(make, words: str) -> None:
    with pytest.raises(InputError, match=words):
        make()
