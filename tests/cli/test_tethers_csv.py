"""Poses as CSV: depths with other speeds and fewer states keep their own rows."""

from __future__ import annotations

import csv
from dataclasses import replace
from math import radians
from pathlib import Path

import pytest

from racewright.cli.tethers import _write
from racewright.holding.statics_sweep import statics
from racewright.ledger.holding_findings import AtDepth
from tests.dossier import holding_found
from tests.holding.bodies import STREAM, spread, states


def test_every_depth_has_its_rows(tmp_path: Path) -> None:
    found = holding_found.found()
    first = found.held.depths[0].intact
    stream = replace(STREAM, heading=radians(10.0))
    turned = statics(spread(), stream, states()[1:2], first.stream_speed[-1:])
    more = AtDepth("median, stream 10° to the left", STREAM.depth, STREAM.reference_height, turned)
    both = replace(found, held=replace(found.held, depths=(*found.held.depths, more)))
    _write(tmp_path / "poses.csv", both)
    lines = (tmp_path / "poses.csv").read_text("utf-8").splitlines()
    rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    assert len(rows) == first.settled.size + 1
    last = rows[-1]
    assert float(last["turned"]) == pytest.approx(radians(10.0))
    assert float(last["state"]) == first.states.index(states()[1].name)
    assert float(last["stream_speed"]) == pytest.approx(first.stream_speed[-1])
    assert {float(row["turned"]) for row in rows[:-1]} == {0.0}
