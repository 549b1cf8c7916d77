"""Rows from a table of sections and as built, through the ledger and `check`."""

from __future__ import annotations

import shutil
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest

from racewright.cli.check import check_scheme
from racewright.errors import InputError
from racewright.ledger.chain import compute
from racewright.ledger.classes import CLASSES
from racewright.ledger.graph import evaluate
from racewright.ledger.inputs import case_of
from racewright.ledger.store import Store, cache_folder
from racewright.machine.row import Row
from racewright.scheme import load_scheme
from racewright.stage.result import OperatingPoint
from tests.ledger.common import EXAMPLE

SECTIONS = '\n[machine.river_unit.rotor.sections]\nfile = "blades.csv"\nsource = "test"\n'
BUILT = '\n[machine.river_unit.rotor.as_built]\nfile = "measured.csv"\npart = "R-7"\nsource = "test"\n'


@dataclass(frozen=True)
class Solved:
    blades: Row
    point: OperatingPoint


@pytest.fixture(scope="module")
def designed() -> Solved:
    return _solved(EXAMPLE / "scheme.toml")


def _solved(scheme: Path) -> Solved:
    loaded = load_scheme(scheme)
    values = evaluate(loaded, *case_of(loaded, None), wanted=("rows", "design_point"))
    return Solved(values["rows"][1], values["design_point"])


def _scheme(folder: Path, more: str, **files: str) -> Path:
    shutil.copytree(EXAMPLE, folder / "demo")
    scheme = folder / "demo" / "scheme.toml"
    scheme.write_text(scheme.read_text("utf-8") + more, "utf-8")
    for name, text in files.items():
        (folder / "demo" / f"{name}.csv").write_text(text, "utf-8")
    return scheme


def _table(row: Row, turned: float = 0.0) -> str:
    lines = ["radius,chord,angle,camber,thickness"]
    angles = np.degrees(row.stagger + turned), np.degrees(row.camber)
    for cells in np.column_stack([row.radius, row.chord, *angles, row.thickness]).tolist():
        lines.append(",".join(repr(cell) for cell in cells))
    return "\n".join(lines) + "\n"


def test_the_designs_own_sections_give_the_designs_power(tmp_path: Path, designed: Solved) -> None:
    scheme = _scheme(tmp_path, SECTIONS, blades=_table(designed.blades))
    check_scheme(scheme, as_json=False)
    found = _solved(scheme)
    np.testing.assert_allclose(found.blades.stagger, designed.blades.stagger, atol=1e-12)
    assert found.point.shaft_power == pytest.approx(designed.point.shaft_power, rel=1e-9)


def test_other_sections_give_another_power_and_no_design_is_asked(tmp_path: Path, designed: Solved) -> None:
    found = _solved(_scheme(tmp_path, SECTIONS, blades=_table(designed.blades, turned=0.05)))
    assert abs(found.point.head_coefficient / designed.point.head_coefficient - 1.0) > 0.02


def test_measured_blades_are_laid_over_the_design(tmp_path: Path, designed: Solved) -> None:
    row = designed.blades
    middle = float(row.radius[2])
    angle = float(np.degrees(row.stagger[2])) + 2.0
    scheme = _scheme(tmp_path, BUILT, measured=f"radius,angle\n{middle!r},{angle!r}\n")
    check_scheme(scheme, as_json=False)
    found = compute(load_scheme(scheme), store=Store(cache_folder(), CLASSES))
    assert found.machine is not None
    assert found.machine.built[0] is None
    assert found.machine.built[1] is not None
    np.testing.assert_allclose(found.machine.blades.stagger - row.stagger, np.radians(2.0), atol=1e-9)
    assert any("Part R-7: stagger of the blades" in r.text for r in found.remarks)


@pytest.mark.parametrize(
    ("more", "files", "said"),
    [
        (SECTIONS, {}, "no file 'blades.csv' beside the scheme"),
        (SECTIONS, {"blades": "radius,chord\n0.2,0.1\n"}, "machine.river_unit.rotor.sections.angle_column"),
        (BUILT, {"measured": "chord\n0.1\n"}, "machine.river_unit.rotor.as_built.radius_column"),
        (SECTIONS, {"blades": "radius,chord,angle,camber,thickness\n0.2,x,0,0,0.1\n"}, "'x' is not a number"),
    ],
)
def test_check_and_report_refuse_alike(tmp_path: Path, more: str, files: dict[str, str], said: str) -> None:
    scheme = _scheme(tmp_path, more, **files)
    for ask in (lambda: check_scheme(scheme, as_json=False), lambda: compute(load_scheme(scheme))):
        with pytest.raises(InputError) as fault:
            ask()
        assert said in str(fault.value)


def test_sections_that_do_not_reach_the_tip_are_refused_with_the_file(tmp_path: Path, designed: Solved) -> None:
    short = "\n".join(_table(designed.blades).splitlines()[:-1]) + "\n"
    with pytest.raises(InputError, match=r"blades\.csv: radius: the last section lies at"):
        compute(load_scheme(_scheme(tmp_path, SECTIONS, blades=short)))
