"""`supply`: what it refuses before anything is computed."""

from __future__ import annotations

from pathlib import Path

import pytest

from racewright.cli.main import run
from tests.ledger.common import EXAMPLE, load_changed


def test_a_village_without_a_supply_table_is_told_which(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    load_changed(tmp_path)
    path = tmp_path / "scheme.toml"
    kept, skip = [], False
    for line in path.read_text("utf-8").splitlines():
        if line.startswith("["):
            skip = line.startswith("[community.landing.supply")
        if not skip:
            kept.append(line)
    path.write_text("\n".join(kept) + "\n", "utf-8")
    assert run(["supply", str(path)]) == 2
    assert "[community.landing.supply]" in capsys.readouterr().err


def test_an_unknown_case_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["supply", str(EXAMPLE / "scheme.toml"), "--case", "none"]) == 2
    assert "case.none" in capsys.readouterr().err
