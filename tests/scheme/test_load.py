"""The bundled scheme loads; each fault gives one message with file, line and key."""

from __future__ import annotations

import shutil
from importlib import resources
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.scheme import load_scheme

EXAMPLE = (resources.files("racewright") / "examples" / "river_unit" / "scheme.toml").read_text("utf-8")


def write(folder: Path, text: str) -> Path:
    path = folder / "scheme.toml"
    path.write_text(text, "utf-8")
    return path


def test_example_loads(tmp_path: Path) -> None:
    scheme = load_scheme(write(tmp_path, EXAMPLE)).scheme
    assert scheme.machine["river_unit"].duct.throat_diameter == 1.0
    assert scheme.place["otter_bend"].water.temperature == pytest.approx(281.15)
    assert scheme.community["landing"].diesel.fuel_price.currency == "EUR"


FAULTS = [
    ('throat_diameter = "1 m"', 'throat_diameter = "1 kg"', "duct.throat_diameter", "mass"),
    ('length = "1 m"', "length = 1.0", "duct.length", "bare number"),
    ('length = "1 m"', 'length = "0,8 m"', "duct.length", "point"),
    ('length = "1 m"', 'lenght = "1 m"', "duct.lenght", "did you mean 'length'"),
    ('length = "1 m"', "", "duct.length", "missing"),
    ('length = "1 m"', 'length = "-1 m"', "duct.length", "between"),
    ('diameter = "0.26 m"', 'diameter = "0.9 m"', "hub.diameter", "smaller"),
    ('place_x = "0.36 m"', 'place_x = "0.98 m"', "rotor.place_x", "leave the duct"),
    ("thickness = 0.14", "thickness = nan", "duct.thickness", "between"),
    ("thickness = 0.14", "thickness = true", "duct.thickness", "plain number"),
    ("count = 7", "count = 7.0", "vanes.count", "whole number"),
    ("format = 2", "format = 3", "format", "newer"),
    ("format = 2", "", "format", "missing"),
    ("format = 2", "format = 0", "format", "whole number"),
    ('place = "otter_bend"', 'place = "oter_bend"', "case.first_unit.place", "did you mean 'otter_bend'"),
    ('yearly = "2600 EUR/yr"', 'yearly = "2600 USD/yr"', "cost.yearly", "one currency"),
    ('unit = "m3/s"', 'unit = "m/s"', "record.unit", "discharge"),
    ('unit = "m3/s"', 'unit = "furlong"', "record.unit", "unknown unit"),
    ('kind = "discharge" ', 'kind = "level" ', "record.kind", "one of"),
    ("[place.otter_bend.transect]", "[place.otter_bend.transects]", "transects", "did you mean 'transect'"),
    ('hub_height = "1.9 m"', 'hub_depth = "1.2 m"\nhub_height = "2 m"', "hub_height", "not both"),
    ("[place.otter_bend.water]", "[place.otter_bend.water", None, "TOML"),
    ("invented = true", 'invented = "yes"', "invented", "true or false"),
]


@pytest.mark.parametrize(("old", "new", "key", "words"), FAULTS)
def test_fault_is_told_once_with_file_line_and_key(
    tmp_path: Path, old: str, new: str, key: str | None, words: str
) -> None:
    assert old in EXAMPLE
    path = write(tmp_path, EXAMPLE.replace(old, new, 1))
    with pytest.raises(InputError) as caught:
        load_scheme(path)
    fault = caught.value
    assert words in str(fault)
    assert str(path) in str(fault)
    assert "\n" not in str(fault)
    if key is not None:
        assert (fault.key or "").endswith(key)
        if "missing" not in words:
            line = path.read_text("utf-8").splitlines()[(fault.line or 0) - 1]
            assert key.split(".")[-1] in line


@pytest.mark.parametrize("content", [b"", b"\xff\xfe", b"format = 1\n\xe9", b"a" * 1_000_001, b"x = " + b"[" * 5000])
def test_foreign_bytes_are_refused(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "scheme.toml"
    path.write_bytes(content)
    with pytest.raises(InputError, match=r"scheme\.toml"):
        load_scheme(path)


def test_missing_file_and_folder(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no such file"):
        load_scheme(tmp_path / "none.toml")
    with pytest.raises(InputError, match="folder"):
        load_scheme(tmp_path)


@settings(max_examples=200, deadline=None)
@given(st.integers(0, len(EXAMPLE) - 1), st.text(max_size=8), st.integers(0, 30))
def test_a_damaged_scheme_loads_or_is_refused(tmp_path_factory, at: int, put: str, cut: int) -> None:  # type: ignore[no-untyped-def]
    text = EXAMPLE[:at] + put + EXAMPLE[at + cut :]
    folder = tmp_path_factory.getbasetemp()
    path = folder / "damaged.toml"
    path.write_bytes(text.encode("utf-8", "surrogatepass"))
    assert _loads_or_names(path)


def _loads_or_names(path: Path) -> bool:
    try:
        return load_scheme(path).file == str(path)
    except InputError as fault:
        return str(path) in str(fault)


def test_a_file_of_format_1_is_read_as_today() -> None:
    """Kept as written by the first version: availability stood in the cost table."""
    old = load_scheme(Path(__file__).parent / "data" / "format1.toml")
    assert old.written_format == 1
    assert old.scheme.format == 2
    assert old.scheme.machine["river_unit"].availability == 0.85


def test_a_newer_key_in_an_older_file_is_not_lost(tmp_path: Path) -> None:
    """Both places given: the new one wins, and the old one is then an unknown key."""
    text = (Path(__file__).parent / "data" / "format1.toml").read_text("utf-8")
    path = write(tmp_path, text.replace("[machine.river_unit]\n", "[machine.river_unit]\navailability = 0.5\n", 1))
    with pytest.raises(InputError, match=r"cost\.availability"):
        load_scheme(path)


@pytest.mark.parametrize(
    "line",
    ["a = " + "[" * 180 + "]" * 180, "format = " + "9" * 5000, "format = 0x" + "f" * 5000, "[a" + ".a" * 900 + "]"],
    ids=["arrays", "digits", "hexadecimal", "tables"],
)
def test_absurd_depth_and_size_are_said(tmp_path: Path, line: str) -> None:
    path = tmp_path / "scheme.toml"
    path.write_text(("" if "format" in line else "format = 2\n") + line + "\n", "utf-8")
    with pytest.raises(InputError) as told:
        load_scheme(path)
    assert len(str(told.value)) < 500


@pytest.mark.parametrize("digits", ["9" * 400, "0x" + "f" * 5000])
def test_a_number_beyond_floats_is_out_of_range(tmp_path: Path, digits: str) -> None:
    path = tmp_path / "scheme.toml"
    for old in ("exit_area_ratio = 1.5", "count = 7"):
        assert old in EXAMPLE
        path.write_text(EXAMPLE.replace(old, old.split("=")[0] + "= " + digits), "utf-8")
        with pytest.raises(InputError, match="hundreds of digits is out of range"):
            load_scheme(path)


@pytest.mark.parametrize(("key", "missed"), [("across", "across"), ("hub_height", "hub_depth")])
def test_a_rated_place_without_a_machine_still_needs_to_know_where(tmp_path: Path, key: str, missed: str) -> None:
    """The speed is computed at one point of the transect, machine or none."""
    old = {"across": 'across = "27 m" ', "hub_height": 'hub_height = "1.9 m" '}[key]
    text = EXAMPLE
    for line in (
        'machine = "river_unit"',
        'community = "landing"',
        'holding = "four_lines"',
        'neighbours = "otter_bend"',
        'growth = "to_the_strait"',
    ):
        text = text.replace(f"{line}\n", "", 1)
    assert load_scheme(write(tmp_path, text)).scheme.case["first_unit"].machine is None
    with pytest.raises(InputError, match="missing") as caught:
        load_scheme(write(tmp_path, text.replace(old, "# ", 1)))
    assert caught.value.key == f"case.first_unit.{missed}"


def test_an_axis_too_near_the_surface_is_refused(tmp_path: Path) -> None:
    shutil.copytree(Path(str(resources.files("racewright"))) / "examples" / "river_unit", tmp_path / "demo")
    scheme = tmp_path / "demo" / "scheme.toml"
    scheme.write_text(scheme.read_text("utf-8").replace('hub_height = "1.9 m"', 'hub_depth = "0.1 m"'), "utf-8")
    with pytest.raises(InputError, match=r"case\.first_unit\.hub_depth: an axis 0\.1 m down"):
        load_scheme(scheme)
