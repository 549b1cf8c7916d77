"""Errors that the physics finds point at the scheme key that they are about."""

from __future__ import annotations

from pathlib import Path

import pytest

from racewright.errors import InputError
from racewright.ledger.chain import compute
from tests.ledger.common import load_changed


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ('across = "27 m" ', 'across = "500 m" ', "case.first_unit.across"),
        ('hub_height = "1.9 m" ', 'hub_depth = "0.3 m" ', "case.first_unit.hub_depth"),
        ('length = "1 m"', 'length = "0.5 m"', "machine.river_unit.duct.exit_area_ratio"),
        ('rated_power = "40 kW"', 'rated_power = "10 kW"', "community.landing.diesel.rated_power"),
    ],
)
def test_points_at(tmp_path: Path, old: str, new: str, key: str) -> None:
    wide = (("exit_area_ratio = 1.5 ", "exit_area_ratio = 3.0 "),) if "length" in old else ()
    with pytest.raises(InputError) as caught:
        compute(load_changed(tmp_path, (old, new), *wide))
    assert caught.value.key == key
    assert caught.value.line is not None
