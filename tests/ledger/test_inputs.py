"""The table of inputs: as written, with unit, and defaults as one would write them."""

from __future__ import annotations

from pathlib import Path

from racewright.ledger.inputs import input_rows
from tests.ledger.common import load_changed


def test_defaults_are_shown_with_their_unit_and_source(tmp_path: Path) -> None:
    rows = {row.key: row for row in input_rows(load_changed(tmp_path), "first_unit")}
    slope = rows["community.landing.diesel.fuel_slope"]
    assert slope.text == "0.246 L/kWh"
    assert slope.source.startswith("default: Skarstein & Uhlen 1989")
    assert rows["machine.river_unit.roughness"].text == "0 mm"
    assert rows["machine.river_unit.duct.length"].text == "1 m"
    assert "machine.river_unit.invented" not in rows
