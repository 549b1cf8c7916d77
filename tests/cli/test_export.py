"""`racewright export`: the folder, what is printed, and what is refused."""

from __future__ import annotations

import io
import json
import math
import shutil
from pathlib import Path

import pytest
import trimesh

from racewright.cli.main import run
from tests.cli.test_commands import _numeric_paths, loaded_by
from tests.ledger.common import EXAMPLE


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    shutil.copytree(EXAMPLE, tmp_path / "demo")
    return tmp_path / "demo" / "scheme.toml"


def test_folder_and_json_agree(demo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The river unit at half size: throat 0.5 m across, seven vanes, five blades."""
    folder = demo.parent / "parts"
    options = ["--to", str(folder), "--scale", "0.5", "--tolerance", "0.2 mm", "--density", "1240 kg/m3", "--json"]
    assert run(["export", str(demo), *options]) == 0
    out, told = capsys.readouterr()
    answer = json.loads(out)
    found = answer["export"]
    assert set(_numeric_paths({"export": found})) <= set(answer["units"])
    assert found["files"] == sorted(p.name for p in folder.iterdir())
    assert (found["scale"], found["tolerance_m"], found["handles"]) == (0.5, pytest.approx(2e-4), 7)
    assert "clockwise" in found["axes"]
    for part in [*found["parts"], found["whole"]]:
        assert part["watertight"]
        assert abs(part["difference"]) < 2e-3
        assert part["mass_kg"] == pytest.approx(1240.0 * part["volume_m3"])
        mesh = trimesh.load_mesh(io.BytesIO((folder / f"{part['name']}.stl").read_bytes()), file_type="stl")
        assert mesh.is_watertight
        assert mesh.volume * 1e-9 == pytest.approx(part["volume_m3"], rel=1e-6)
        assert len(mesh.faces) == part["triangles"]
        assert mesh.bounds.ravel() * 1e-3 == pytest.approx([*part["lowest_m"], *part["highest_m"]], abs=1e-7)
    assert [(p["name"], p["count"]) for p in found["parts"]] == [("duct", 1), ("hub", 1), ("vane", 7), ("blade", 5)]
    hub = math.pi * 0.13**2 * (0.45 + 2.0 / 3.0 * 0.6) / 8.0
    assert found["parts"][1]["parametric_volume_m3"] == pytest.approx(hub, rel=1e-12)
    contents = json.loads((folder / "contents.json").read_text("utf-8"))
    assert contents["tolerance_mm"] == pytest.approx(0.2)
    assert contents["machine"] == "river_unit"
    assert "no proof of strength" in told
    first = {p.name: p.read_bytes() for p in folder.iterdir()}
    assert run(["export", str(demo), *options]) == 0
    assert {p.name: p.read_bytes() for p in folder.iterdir()} == first


def test_the_vane_turns_the_water_the_way_the_rotor_turns(demo: Path) -> None:
    """The vane's trailing edge lies further along the rotation, from y to z; the blade's leading edge does."""
    folder = demo.parent / "parts"
    assert run(["export", str(demo), "--to", str(folder), "--format", "stl"]) == 0
    ahead = {}
    for name in ("vane", "blade"):
        mesh = trimesh.load_mesh(io.BytesIO((folder / f"{name}.stl").read_bytes()), file_type="stl")
        x, _y, z = mesh.vertices.T
        ahead[name] = z[x > x.max() - 2.0].mean() - z[x < x.min() + 2.0].mean()
    assert ahead["vane"] > 0.0 > ahead["blade"]


def test_tables_alone_and_a_machine_without_a_case(demo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    folder = demo.parent / "tables"
    chosen = ["--machine", "river_unit", "--format", "csv", "--json"]
    assert run(["export", str(demo), "--to", str(folder), *chosen]) == 0
    found = json.loads(capsys.readouterr().out)["export"]
    assert found["whole"] is None
    assert found["handles"] is None
    assert all(name.endswith((".csv", ".json")) for name in found["files"])
    assert found["parts"][0]["mass_kg"] is None


def test_rows_as_built_are_said_to_be(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["new", str(tmp_path / "bench"), "--example", "model_test"]) == 0
    scheme = str(tmp_path / "bench" / "scheme.toml")
    assert run(["export", scheme, "--to", str(tmp_path / "out"), "--format", "csv"]) == 0
    assert "blades are as part R-03 was measured" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--scale", "0"], "--scale: 0 is out of range"),
        (["--scale", "nan"], "--scale: nan is out of range"),
        (["--tolerance", "0.1"], "--tolerance"),
        (["--tolerance", "5 mm"], "--tolerance: 5 mm is out of range; at this scale throat, tip gap and roots want"),
        (["--format", "stl,obj"], "--format: 'obj' is none of stl, glb, csv"),
        (["--density", "1 kg/m3"], "--density"),
        (["--machine", "ship"], "no table [machine.ship]; the scheme has river_unit"),
        (["--machine", "river_unit", "--case", "first_unit"], "not both"),
        (["--case", "nowhere"], "no table [case.nowhere]"),
    ],
)
def test_faults_are_told_in_one_line(
    demo: Path, capsys: pytest.CaptureFixture[str], options: list[str], said: str
) -> None:
    assert run(["export", str(demo), "--to", str(demo.parent / "parts"), *options]) == 2
    told = capsys.readouterr().err
    assert said in told
    assert told.count("\n") == 1
    assert not (demo.parent / "parts").exists()


def test_a_hub_too_short_for_the_vanes_is_told_with_its_place(demo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = demo.read_text("utf-8").replace('nose_x = "-0.15 m"', 'nose_x = "0.07 m"')
    text = text.replace('nose_length = "0.2 m"', 'nose_length = "0.06 m"')
    demo.write_text(text, "utf-8")
    assert run(["export", str(demo), "--to", str(demo.parent / "parts")]) == 2
    told = capsys.readouterr().err
    assert "whose radius falls to" in told
    assert "scheme.toml:" in told


def test_the_users_folder_is_left_alone(demo: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["export", str(demo), "--to", str(demo.parent)]) == 2
    assert "was not written here" in capsys.readouterr().err
    assert demo.exists()


def test_solids_stay_off_the_quick_paths(demo: Path) -> None:
    heavy = {"numpy", "scipy", "matplotlib", "trimesh", "manifold3d"}
    assert not loaded_by("export", "--help") & heavy
    assert not loaded_by("check", str(demo)) & heavy
    assert not loaded_by("point", str(demo)) & {"matplotlib", "trimesh", "manifold3d"}
    tables = loaded_by("export", str(demo), "--to", str(demo.parent / "t"), "--format", "csv")
    assert not tables & {"matplotlib", "trimesh", "manifold3d"}
