"""`check` refuses gaugings and transects of which nothing can be made, and machines that do not fit the water."""

from __future__ import annotations

import json
import re
from dataclasses import astuple
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest

from racewright.cli.check import check_scheme
from racewright.cli.check_rating import Curve, curve_of
from racewright.cli.check_water import River
from racewright.cli.new import copy_example
from racewright.errors import InputError
from racewright.ledger.graph import evaluate
from racewright.ledger.inputs import case_of
from racewright.place import rating
from racewright.place.result import Site
from racewright.place.transect import Transect
from racewright.scheme import load_scheme


@pytest.fixture
def scheme(tmp_path: Path) -> Path:
    copy_example(tmp_path / "demo", force=False, as_json=False)
    return tmp_path / "demo" / "scheme.toml"


def refused(scheme: Path) -> str:
    with pytest.raises(InputError) as fault:
        check_scheme(scheme, as_json=False)
    return str(fault.value)


def swap(path: Path, old: str, new: str) -> None:
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new), "utf-8")


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("3.31,81.8", "3.31,-81.8", "gaugings.csv:4: discharge_m3s: a gauging of -81.8 m3/s"),
        ("3.31,81.8", "3.31,0", "gaugings.csv:4: discharge_m3s: a gauging of 0 m3/s"),
        ("3.31,81.8", "-3.31,81.8", "gaugings.csv:4: level_m: a gauged level of -3.31 m is not above the zero level"),
    ],
)
def test_gaugings_below_nought_are_refused_with_their_line(scheme: Path, old: str, new: str, said: str) -> None:
    swap(scheme.parent / "gaugings.csv", old, new)
    assert said in refused(scheme)


def test_distances_that_go_back_are_refused_with_their_line(scheme: Path) -> None:
    swap(scheme.parent / "transect.csv", "6.5,5.30", "2.5,5.30")
    assert "transect.csv:4: distance_m: the distance 2.5 m follows 3 m" in refused(scheme)


def site_of(scheme: Path) -> Site:
    """As a report finds it."""
    loaded = load_scheme(scheme)
    name, case = case_of(loaded, None)
    site: Site = evaluate(loaded, name, case, wanted=("site",))["site"]
    return site


def warned(scheme: Path, capsys: pytest.CaptureFixture[str]) -> list[dict[str, str]]:
    """Remarks of the JSON, which stand in the text too."""
    capsys.readouterr()
    check_scheme(scheme, as_json=True)
    told = capsys.readouterr()
    answer = json.loads(told.out)
    remarks: list[dict[str, str]] = answer["remarks"]
    assert ": sound. " in told.err if not remarks else f"with {len(remarks)} caution" in told.err
    assert all(one["text"] in told.err for one in remarks)
    return remarks


def test_the_example_is_sound(scheme: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert warned(scheme, capsys) == []


def test_water_beyond_the_transect_is_a_caution(scheme: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The left bank surveyed no higher than 4 m; the record's highest water stands above that."""
    table = scheme.parent / "transect.csv"
    swap(table, "0.0,9.30\n3.0,7.40\n6.5,5.30\n", "6.5,4.00\n")
    (one,) = warned(scheme, capsys)
    site = site_of(scheme)
    (banks,) = [r.text for r in site.remarks if r.about == "banks"]
    assert (one["severity"], one["about"]) == ("caution", "place otter_bend")
    share, high = re.search(r"for ([\d.]+ %) of.*up to ([\d.]+) m", banks).groups()
    assert f"in {share} of the record's values and stands at {high} m" in one["text"]


def test_a_rating_below_the_bed_is_refused(scheme: Path) -> None:
    lines = (scheme.parent / "transect.csv").read_text("utf-8").splitlines()
    raised = [f"{d},{float(b) + 4.0}" for d, b in (line.split(",") for line in lines[1:])]
    (scheme.parent / "transect.csv").write_text("\n".join([lines[0], *raised]) + "\n", "utf-8")
    assert "place.otter_bend.transect: the rating gives a level of" in refused(scheme)


@pytest.mark.parametrize(
    ("hangs", "said"),
    [
        (
            'hub_height = "0.4 m"',
            "case.first_unit.hub_height: an axis 0.4 m from the bed puts a duct of at least 0.6",
        ),
        ('hub_depth = "30 m"', "case.first_unit.hub_depth: the duct, at least 0.6"),
        ('hub_height = "30 m"', "comes out of the water in all of the record"),
    ],
)
def test_a_machine_through_bed_or_surface_is_refused(scheme: Path, hangs: str, said: str) -> None:
    swap(scheme, 'hub_height = "1.9 m" ', hangs)
    assert said in refused(scheme)


def test_a_machine_beyond_the_survey_is_refused(scheme: Path) -> None:
    swap(scheme, 'across = "27 m"', 'across = "0.3 m"')
    assert "case.first_unit.across: a duct of at least 0.6" in refused(scheme)


def test_a_machine_aground_at_low_water_is_a_caution(scheme: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """So deep that it has room in the median water only, as the site itself finds."""
    swap(scheme, 'hub_height = "1.9 m" ', 'hub_depth = "2.2 m" ')
    (one,) = [w for w in warned(scheme, capsys) if w["about"].startswith("case")]
    site = site_of(scheme)
    (aground,) = [r.text for r in site.remarks if r.about == "clearance"]
    share = float(re.search(r"([\d.]+) % of the record", aground).group(1))
    assert "is aground below a level of" in one["text"]
    assert float(re.search(r"in ([\d.]+) % of", one["text"]).group(1)) == pytest.approx(share, rel=0.1)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('hub_depth = "26 m"', 'hub_depth = "45 m"', "an axis 45 m from the surface puts a duct of at least 10.3 m"),
        ('hub_depth = "26 m"', 'hub_height = "45 m"', "through the surface of water 52 m deep"),
    ],
)
def test_one_given_depth_must_hold_the_duct(tmp_path: Path, old: str, new: str, said: str) -> None:
    copy_example(tmp_path / "tide", name="tidal_unit", force=False, as_json=False)
    scheme = tmp_path / "tide" / "scheme.toml"
    swap(scheme, old, new)
    assert said in refused(scheme)


@pytest.mark.parametrize("zero", [0.3, None])
def test_the_rating_is_that_of_the_fit(zero: float | None) -> None:
    level = np.array([1.2, 1.5, 2.0, 2.6, 3.1, 4.0, 5.2])
    flow = 11.0 * (level - 0.3) ** 1.8 * np.array([1.03, 0.98, 1.01, 0.97, 1.02, 1.0, 0.99])
    fitted = rating(level, flow, zero_level=zero).rating
    place = SimpleNamespace(rating=None, gaugings=SimpleNamespace(zero_level=zero))
    found = curve_of(place, (level.tolist(), flow.tolist()))
    assert found is not None
    mine, wanted = (found.coefficient, found.zero_level, found.exponent), astuple(fitted)
    assert mine == pytest.approx(wanted, rel=1e-7)


def test_the_touching_level_is_that_of_the_transect() -> None:
    rng = np.random.default_rng(2)
    distance, bed = np.cumsum(rng.uniform(0.2, 3.0, 30)), rng.uniform(0.0, 4.0, 30)
    river = River(Curve(1.0, 0.0, 2.0), distance.tolist(), bed.tolist(), [1.0])
    for across in (8.0, 15.5, 21.0):
        wanted = Transect(distance, bed).touching_level(across, 1.3)
        assert river.touching(across, 1.3) == pytest.approx(wanted, abs=1e-12)
