"""Debris of a scheme: the raft at its time, its cap of width, and the mass that is carried off with the machine."""

from __future__ import annotations

from math import pi

import pytest

from racewright.holding.debris_raft import WIDEST, Raft, raft_size
from racewright.holding.debris_release import RetainingLine, WeakLink, release
from racewright.ledger.holding_debris import debris_load, debris_mass, size_words

DAY = 86400.0
RAFT = {"kind": "raft", "wood": 2.0, "caught": 0.3, "length": 8.0, "time": 7.0 * DAY, "ahead": 0.0, "up": 0.5}
"""Of 2 m3 a day and a third kept 2 m3 of raft a day: 14 m3 after a week, 32 m3 when it is full in 4 m of water."""
TRUNK = {"kind": "trunk", "length": 9.0, "diameter": 0.35, "ahead": 0.0, "up": 0.0}
CROWN = {"kind": "crown", "width": 3.5, "height": 1.5, "ahead": 0.0, "up": 0.0}
DEPTH, WIDTH = 4.0, 1.3


def load_area(**changes: object) -> float:
    return debris_load("raft", {**RAFT, **changes}, 2.0, 1000.0, DEPTH, WIDTH).area


def test_the_raft_is_asked_as_it_is_at_its_time() -> None:
    """14 m3 in the limits' proportions of 8 m by 2 m: 16 m2 x (14/32)^(2/3); its middle hangs half its depth down."""
    found = debris_load("raft", RAFT, 2.0, 1000.0, DEPTH, WIDTH)
    share = 14.0 / 32.0
    assert found.area == pytest.approx(16.0 * share ** (2.0 / 3.0), rel=1e-9)
    assert found.point[2] == pytest.approx(0.5 - share ** (1.0 / 3.0), rel=1e-9)
    assert load_area(time=1.0 * DAY) < load_area(time=7.0 * DAY) < load_area(time=60.0 * DAY)
    assert load_area(time=60.0 * DAY) == pytest.approx(16.0)


def test_words_tell_the_full_raft_where_it_is_larger() -> None:
    growing, full = (size_words({**RAFT, "time": d * DAY}, DEPTH, WIDTH) for d in (7.0, 60.0))
    assert growing.startswith("6.1 m wide, 1.5 m deep after 7 days; ")
    assert "full after 16 days, 8.0 m wide, 2.0 m deep: 1.7 times the force" in growing
    assert full == "8.0 m wide, 2.0 m deep after 60 days, as large as it gets"
    assert "nothing" in size_words({**RAFT, "caught": 0.0}, DEPTH, WIDTH)


def test_a_raft_of_long_pieces_is_no_wider_than_the_cap() -> None:
    """Pieces of 30 m make a raft 45 ft wide, on a narrow machine; one wider than that is spanned."""
    wide = load_area(length=30.0, time=3000.0 * DAY)
    assert wide == pytest.approx(WIDEST * 2.0)
    assert debris_load(
        "raft", {**RAFT, "length": 30.0, "time": 3000.0 * DAY}, 2.0, 1000.0, DEPTH, 20.0
    ).area == pytest.approx(40.0)


def test_limits_are_met_together() -> None:
    """Width and depth keep the limits' proportions to the end: neither grows on when the other is met."""
    size = raft_size(Raft(2e-5, 0.5, 2.0, 30.0, 4.0), [0.5e6, 1e6, 2e6, 1e8])
    assert size.width / size.depth == pytest.approx(WIDEST / 2.0)
    assert (size.width[-1], size.depth[-1]) == pytest.approx((WIDEST, 2.0))


def test_debris_is_carried_off_with_its_water() -> None:
    """As heavy as the water it takes the room of, wood and water between, and as much again outside it."""
    assert debris_mass(TRUNK, 1000.0, DEPTH, WIDTH) == pytest.approx(2000.0 * 0.25 * pi * 0.35**2 * 9.0)
    assert debris_mass(CROWN, 1000.0, DEPTH, WIDTH) == pytest.approx(2000.0 * pi / 6.0 * 3.5 * 1.5**2)
    assert debris_mass(RAFT, 1000.0, DEPTH, WIDTH) == pytest.approx(2000.0 * 14.0)


def test_what_hangs_on_the_machine_raises_the_snatch() -> None:
    load = debris_load("trunk", TRUNK, 3.3, 1000.0, DEPTH, WIDTH)
    snatch = [
        release((load,), WeakLink("pin", 10e3), 3.3, 0.5, mass, retaining=RetainingLine(6.0, 60e3, 120e3)).load_after
        for mass in (405.0, 405.0 + debris_mass(TRUNK, 1000.0, DEPTH, WIDTH))
    ]
    assert snatch[0] is not None
    assert snatch[1] is not None
    assert snatch[1].high > 1.3 * snatch[0].high
