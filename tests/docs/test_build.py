"""The docs build: the real tree passes; each thing it should complain of is shown once."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Any

import pytest
import typer
from pydantic import Field
from tools.docs import build, checked, commands, glossary, json_page, links, scheme_page
from tools.docs.docstrings import field_meanings
from tools.docs.fault import Fault, table
from tools.docs.json_tree import Walker

from racewright.dossier.build import Dossier
from racewright.scheme.types import Table, quantity


def test_the_real_tree_is_documented_and_not_stale(monkeypatch: pytest.MonkeyPatch) -> None:
    """A report prints the same JSON whatever its dossier holds."""
    monkeypatch.setattr("racewright.cli.report.build", lambda findings: Dossier(b"", b"", {}))
    files, faults = build.generated(checked.kept(build.KEPT))
    assert [str(f) for f in faults + build.differing(files)] == []


def told(faults: list[Fault]) -> str:
    return "; ".join(str(fault) for fault in faults)


def test_a_stale_or_missing_generated_file_is_found(tmp_path: Path) -> None:
    (tmp_path / "old.md").write_text("old", "utf-8")
    files = {tmp_path / "old.md": "new", tmp_path / "gone.md": "text"}
    assert [f.where for f in build.differing(files, tmp_path)] == ["old.md", "gone.md"]
    (tmp_path / "old.md").write_text("new", "utf-8")
    (tmp_path / "gone.md").write_text("text", "utf-8")
    assert build.differing(files, tmp_path) == []


def test_check_ends_with_1_on_a_fault_and_writes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    page = build.ROOT / "docs" / "reference" / "no_such_page.md"
    monkeypatch.setattr(build, "generated", lambda measured: ({page: "text"}, []))
    assert build.main(["--check"]) == 1
    assert "docs/reference/no_such_page.md: stale" in capsys.readouterr().err
    assert not page.exists()
    monkeypatch.setattr(build, "generated", lambda measured: ({}, []))
    assert build.main(["--check"]) == 0


def test_a_command_or_option_without_help_is_found() -> None:
    app = typer.Typer()

    @app.callback(help="the group")
    def root() -> None: ...

    @app.command()
    def bare(path: str, loud: bool = False) -> None: ...

    @app.command(epilog="Example: x good p")
    def good(path: Annotated[str, typer.Argument(help="a path")]) -> None:
        """Do good."""

    page, faults = commands.page(app, "x")
    assert told(faults) == (
        "x bare: the command has no help; x bare: the command has no example (epilog);"
        " x bare PATH: the parameter has no help; x bare --loud, --no-loud: the parameter has no help"
    )
    assert "## `x good`" in page
    assert "| `PATH` | a path |" in page
    assert "Example: `x good p`" in page


class Inner(Table):
    """An inner table."""

    known: float = quantity("length", "0 m", "2 m", "a length", default="0.5 m", because="habit")
    unknown: float = quantity("speed", "0 m/s", "1 m/s", "")


class Outer(Table):
    """A scheme."""

    named: dict[str, Inner] = Field(default_factory=dict)


def test_a_scheme_key_without_meaning_is_found() -> None:
    page, faults = scheme_page.page(Outer)
    assert [f.where for f in faults] == ["scheme key named", "scheme key named.NAME.unknown"]
    assert '| `known` | length with its unit, 0 m to 2 m | `"0.5 m"`: habit | a length |' in page


@dataclass(frozen=True)
class Half:
    """A result.

    Attributes
    ----------
    said, also : float
        One [m], two [s].
    silent : float
        [m]
    """

    said: float
    also: float
    silent: float
    below: int
    """Said below."""


def test_meanings_are_read_from_docstrings() -> None:
    assert field_meanings(Half) == {"said": "One", "also": "two", "below": "Said below."}


@dataclass(frozen=True)
class More(Half):
    """A result with more.

    Attributes
    ----------
    more : float
        Three [kg].
    also : float
        Told anew [s].
    """

    more: float


def test_meanings_of_fields_that_come_from_another_class_are_found() -> None:
    assert field_meanings(More) == {"said": "One", "also": "Told anew", "below": "Said below.", "more": "Three"}


def test_a_json_key_without_meaning_or_unit_is_found() -> None:
    units = {"Half": {"said": "m", "also": "s", "silent": "m", "below": "-"}}
    tree = Walker(meanings={"x": {"half": "the half"}}, units=units).of(
        dict, {"half": Half(1.0, 2.0, 3.0, 4)}, owner="x"
    )
    page, faults = json_page.page({"x": tree}, {"x": ("version", "hour")}, {"version": "of the program"})
    assert told(faults) == (
        "JSON key half.silent_m of 'x': has no meaning; JSON key provenance.hour of 'x': has no meaning"
    )
    assert "| `half.also_s` | number | s | two |" in page


def test_a_stale_glossary_identifier_is_found(tmp_path: Path) -> None:
    (tmp_path / "a.py").write_text("head_drop = 1\n", "utf-8")
    text = "| name | identifier | symbol | meaning | unit |\n|---|---|---|---|---|\n"
    text += "| head drop | `head_drop` | dh | head | J/kg |\n| gone | `head_drop`, `gone_by` | - | x | - |\n"
    text += "| bare | - | - | x | |\n"
    assert (
        told(glossary.stale(text, tmp_path)) == "glossary, gone: the identifier 'gone_by' stands nowhere in the code"
    )


def test_dead_links_and_headings_are_found(tmp_path: Path) -> None:
    (tmp_path / "b.md").write_text("# Two words\n", "utf-8")
    page = tmp_path / "a.md"
    page.write_text(
        "[ok](b.md) [ok](b.md#two-words) [no](c.md) [no](b.md#three) [ok](https://x.y) `[c](d.md)`\n", "utf-8"
    )
    assert told(links.dead([page], tmp_path)) == "a.md: dead link to 'c.md'; a.md: no heading for 'b.md#three'"
    assert links.dead([page], tmp_path, {tmp_path / "c.md": "", tmp_path / "b.md": "## Three\n# Two words\n"}) == []


def check(name: str, file: str = "test_some_part", *, measures: bool = False) -> checked.Check:
    return checked.Check(file, name, "", "a book", "published", "1 %", measures)


def test_measured_differences_must_match_the_tests() -> None:
    checks = [check("test_a", measures=True), check("test_b")]
    assert checked.faults(checks, {"test_some_part::test_a": "0.1 %"}) == []
    assert "records its difference" in told(checked.faults(checks, {}))
    kept = {"test_some_part::test_a": "0.1 %", "test_some_part::test_b": "0.2 %"}
    assert "no test records it" in told(checked.faults(checks, kept))


def test_recorded_differences_are_read_from_a_run() -> None:
    item = '<properties><property name="measured" value="{}"/></properties>'
    case = '<testcase classname="tests.external.test_p" name="{}">' + item + "</testcase>"
    cases = [("test_a[1]", "1 %"), ("test_a[2]", "2 %"), ("test_a[3]", "2 %")]
    run = "<testsuites><testsuite>" + "".join(case.format(*c) for c in cases) + "</testsuite></testsuites>"
    assert checked.recorded(run) == {"test_p::test_a": "1 %; 2 %"}


def test_the_readme_takes_a_short_table_whole_and_sums_up_a_long_one() -> None:
    few = checked.readme_part([check("test_an_angle")], {"test_some_part::test_an_angle": "0.1 deg"})
    assert "| An angle | a book | published | 1 % | 0.1 deg |" in few
    many = checked.readme_part([check(f"test_{i}") for i in range(61)], {"test_some_part::test_3": "0.2 deg"})
    assert "| [Some](docs/checked.md#some-part) | 61 | 61 |  |  |  |  | 3 (a book): 0.2 deg |" in many
    readme = "a\n<!-- checked:begin -->\nold\n<!-- checked:end -->\nz\n"
    assert checked.placed(readme, "new\n") == readme.replace("old", "new")
    with pytest.raises(ValueError, match="README"):
        checked.placed("nothing", "new")


def test_checks_are_collected_with_source_status_and_tolerance() -> None:
    folder = build.ROOT / "tests" / "external"
    found = {c.id: c for c in checked.collect("tests.external", folder)}
    plates = found["test_stage_rows::test_flat_plate_rows"]
    assert (plates.status, plates.measures) == ("closed form", True)
    assert "Merchant & Collar" in plates.source


def test_table_cells_hold_no_bars_or_line_ends() -> None:
    rows: list[tuple[Any, ...]] = [("a|b", "c\nd")]
    assert table(("x", "y"), rows) == "| x | y |\n| --- | --- |\n| a\\|b | c d |\n"
