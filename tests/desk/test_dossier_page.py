"""The dossier made by the desk: the report folder of the `report` command, chosen chapters, a cancel."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from racewright.cli.report import make_report
from racewright.desk.answer import answer_page
from racewright.desk.pages.dossier import DossierOptions
from racewright.desk.parts.dossier_job import make_dossier
from racewright.dossier.build import ALWAYS, chosen
from racewright.dossier.compose import compose
from racewright.errors import Cancelled, InputError
from racewright.ledger.chain import compute
from racewright.scheme import load_scheme

EMPTY = b'format = 2\ntitle = "Nothing yet"\n'


@pytest.fixture
def scheme(tmp_path: Path) -> Path:
    path = tmp_path / "scheme.toml"
    path.write_bytes(EMPTY)
    return path


def test_the_report_folder_is_the_commands(scheme: Path) -> None:
    """All chapters chosen: the same files, byte for byte where no clock is told, and the next number."""
    make_report(scheme, None, None, workers=1, as_json=False)
    first = scheme.parent / "reports" / "latest"
    kept = {p.name: p.read_bytes() for p in first.resolve().iterdir()}
    every = tuple(c.anchor for c in compose(compute(load_scheme(scheme), None)).chapters)
    made = make_dossier(EMPTY, scheme, None, every)
    assert made.folder == "0002-empty"
    assert first.resolve().name == "0002-empty"
    again = {p.name: p.read_bytes() for p in first.resolve().iterdir()}
    for files in (kept, again):
        del files["provenance.json"]
    assert again == kept
    assert (made.pdf, made.html) == (again["dossier.pdf"], again["dossier.html"])
    assert made.pdf.startswith(b"%PDF")


def test_chosen_chapters_and_those_that_stay(scheme: Path) -> None:
    document = compose(compute(load_scheme(scheme), None))
    assert [c.anchor for c in chosen(document, ("place", "no such")).chapters] == ["place", *ALWAYS]
    assert chosen(document, ()).answers == document.answers
    made = make_dossier(EMPTY, scheme, None, ("place",))
    page = made.html.decode()
    assert 'id="place"' in page
    assert 'id="cautions"' in page
    assert 'id="machine"' not in page


def test_a_cancel_leaves_the_reports_as_they_were(scheme: Path) -> None:
    make_dossier(EMPTY, scheme, None, ())
    before = sorted(p.name for p in (scheme.parent / "reports").iterdir())

    def stop(fraction: float) -> None:
        if fraction > 0.7:
            raise Cancelled("enough")

    with pytest.raises(Cancelled):
        make_dossier(EMPTY, scheme, None, (), stop)
    assert sorted(p.name for p in (scheme.parent / "reports").iterdir()) == before


def test_the_bar_never_runs_backwards(scheme: Path) -> None:
    told: list[float] = []
    make_dossier(EMPTY, scheme, None, (), told.append)
    assert told == sorted(told)
    assert told[-1] < 1.0


def test_a_file_where_the_reports_go_is_told_before_anything_is_computed(scheme: Path) -> None:
    (scheme.parent / "reports").write_text("mine")
    with pytest.raises(InputError, match="is a file"):
        make_dossier(EMPTY, scheme, None, ())
    assert (scheme.parent / "reports").read_text() == "mine"


def test_a_preview_is_the_chapter_itself(scheme: Path) -> None:
    told = json.loads(answer_page("dossier", EMPTY, scheme, DossierOptions(chapter="cautions")).text)
    wanted = next(c for c in compose(compute(load_scheme(scheme), None)).chapters if c.anchor == "cautions")
    shown = told["shown"]
    assert shown["title"] == wanted.title
    assert shown["parts"][0]["blocks"][0]["items"] == list(wanted.blocks[0].items)  # type: ignore[union-attr]
    assert [m["chapter"] for m in told["missing"]]
    unknown = json.loads(answer_page("dossier", EMPTY, scheme, DossierOptions(chapter="../../etc")).text)
    assert unknown["shown"] is None
