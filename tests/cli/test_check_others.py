"""`check` reads the files of village, neighbours and strength, and names every table."""

from __future__ import annotations

from pathlib import Path

import pytest

from racewright.cli.check import check_scheme
from racewright.cli.new import copy_example
from racewright.errors import InputError

FILES = """
[community.landing.supply.load.meter]
file = "meter.csv"
zone = "UTC"
[community.landing.supply.sun]
file = "sun.csv"
source = "invented"
[neighbours.otter_bend.sound.measured]
file = "sound.csv"
distance = "10 m"
relative_speed = "12 m/s"
area = "0.5 m2"
uncertainty = 2.0
where = "invented"
[machine.river_unit.strength.series.root]
file = "stress.csv"
duration = "1 h"
curve = "d_air"
source = "invented"
"""
CELLS = {
    "meter.csv": "time,power\n2026-01-01 00:00:00,12.5\n2026-01-01 01:00:00,\n2026-01-01 02:00:00,11\n",
    "sun.csv": "time,power\n2026-01-01 00:00:00,0\n2026-01-01 01:00:00,3\n",
    "sound.csv": "frequency,with_machine,background\n100,90,80\n125,91,80\n160,92,80\n",
    "stress.csv": "stress\n1\n-1\n2\n-3\n",
}


@pytest.fixture
def scheme(tmp_path: Path) -> Path:
    copy_example(tmp_path / "demo", force=False, as_json=False)
    path = tmp_path / "demo" / "scheme.toml"
    text = path.read_text("utf-8")
    first, end = (text.index(f"[community.landing.supply.{key}") for key in ("load.shape.winter", "set.small"))
    text = text[:first] + text[end:]
    path.write_text(text + FILES, "utf-8")
    for name, text in CELLS.items():
        (path.parent / name).write_text(text, "utf-8")
    return path


def test_every_table_is_named_with_what_was_read(scheme: Path, capsys: pytest.CaptureFixture[str]) -> None:
    check_scheme(scheme, as_json=False)
    told = capsys.readouterr().err
    assert "community landing: meter with 2 values, sun with 2 values" in told
    assert "neighbours otter_bend: measured sound in 3 bands" in told
    assert "stress: root 4 values" in told
    assert "holding four_lines: 4 lines, 4 anchors" in told
    assert "growth to_the_strait" in told
    assert "case first_unit: place otter_bend, machine river_unit, holding four_lines," in told


@pytest.mark.parametrize(
    ("file", "text", "said"),
    [
        ("meter.csv", "time,power\n2026-01-01 00:00:00,-3\n", "meter.csv:2: power: '-3' is negative"),
        ("sun.csv", "time,watts\n2026-01-01 00:00:00,3\n", "community.landing.supply.sun"),
        ("sound.csv", "frequency,with_machine,background\n100,,80\n", "sound.csv:2: with_machine: the cell is blank"),
        ("stress.csv", "stress\nhigh\n", "stress.csv:2: stress: 'high' is not a number"),
    ],
)
def test_a_fault_of_a_file_is_said_before_anything_is_computed(scheme: Path, file: str, text: str, said: str) -> None:
    (scheme.parent / file).write_text(text, "utf-8")
    with pytest.raises(InputError) as refused:
        check_scheme(scheme, as_json=False)
    assert said in str(refused.value)


def test_a_bar_thicker_than_its_hole_is_refused_with_its_line(scheme: Path) -> None:
    text = scheme.read_text("utf-8")
    text += """[holding.four_lines.anchor.bolted]
ahead = "30 m"
left = "0 m"
[holding.four_lines.anchor.bolted.rock]
hole_diameter = "20 mm"
bond_length = "1 m"
bond_strength = "1 MPa"
bar_diameter = "25 mm"
bar_strength = "500 MPa"
"""
    scheme.write_text(text, "utf-8")
    with pytest.raises(InputError, match=r"scheme\.toml:\d+: .*rock\.bar_diameter: must not be above hole_diameter"):
        check_scheme(scheme, as_json=False)
