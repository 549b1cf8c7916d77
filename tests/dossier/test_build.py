"""The whole dossier: nothing foreign, nothing executed, whole or partial findings."""

from __future__ import annotations

import dataclasses
import io
import itertools
import re
from functools import cache
from html.parser import HTMLParser

import pytest
from pypdf import PdfReader

from racewright.dossier.build import Dossier, build
from racewright.ledger.findings import Assumption, Duty, Findings, InputRow, Missing
from racewright.remark import Remark
from racewright.stage.result import State
from tests.dossier import sample

pytestmark = pytest.mark.usefixtures("drawn_once")

NASTY = "<script>alert('x')</script> #eval(\"1+1\") $x^2$ \\ *b* @ref & 😀"
LONG = "W" * 300


@cache
def _full() -> Dossier:
    return build(sample.full())


@cache
def _pages(pdf: bytes, most: int | None = None) -> list[str]:
    """Text of each page, or of the first ones; without spaces and soft breaks, so that line breaks do not matter."""
    pages = PdfReader(io.BytesIO(pdf)).pages[:most]
    return [re.sub(r"[\s\u200b\u2060\u202f]+", "", p.extract_text()) for p in pages]


def _squeeze(text: str) -> str:
    return re.sub(r"[\s\u200b\u2060\u202f]+", "", text)


class _Reader(HTMLParser):
    """Tags in order, text without style and drawings."""

    def __init__(self) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text: list[str] = []
        self._skip = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        self._skip += tag in ("style", "svg")

    def handle_endtag(self, tag: str) -> None:
        self._skip -= tag in ("style", "svg")

    def handle_data(self, data: str) -> None:
        if not self._skip:
            self.text.append(data)


def _read(html: bytes) -> _Reader:
    reader = _Reader()
    reader.feed(html.decode("utf-8"))
    return reader


def _nasty() -> Findings:
    bad = f"{NASTY} {LONG}"
    return sample.full(
        title=bad,
        case=bad,
        invented=(bad,),
        machine=sample.machine(bad),
        place=dataclasses.replace(sample.place(), description=bad),
        community=dataclasses.replace(sample.community(), description=bad),
        inputs=(InputRow(f"machine.{LONG}", bad, bad, bad),),
        assumptions=(Assumption(bad, bad),),
        missing=(Missing(bad, bad),),
        duties=(Duty(bad, bad),),
        remarks=(Remark("warning", bad, bad),),
    )


def test_html_needs_nothing_else() -> None:
    page = _full().html.decode("utf-8")
    assert "http://" not in page
    assert "https://" not in page
    assert not re.search(r"<(script|link|img|iframe|object|embed|base)\b", page)
    assert not re.search(r"url\((?!#)|@import|\ssrc=|\son[a-z]+=", page)
    assert all(a["href"] and a["href"].startswith("#") for t, a in _read(_full().html).tags if t in ("a", "use"))


def test_html_ids_are_unique_and_links_land() -> None:
    page = _full().html.decode("utf-8")
    ids = re.findall(r'\sid="([^"]+)"', page)
    assert len(ids) == len(set(ids))
    assert set(re.findall(r'href="#([^"]+)"', page)) <= set(ids)


def test_html_can_be_read_aloud() -> None:
    tags = _read(_full().html).tags
    assert ("html", {"lang": "en"}) in tags
    levels = [int(t[1]) for t, _ in tags if re.fullmatch(r"h[1-6]", t)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(later <= earlier + 1 for earlier, later in itertools.pairwise(levels))
    assert all(a.get("scope") in ("col", "row") for t, a in tags if t == "th")
    drawings = [a for t, a in tags if a.get("role") == "img"]
    assert len(drawings) == 12
    assert all(a["aria-label"] for a in drawings)
    assert sum(t == "figcaption" for t, _ in tags) == 11
    assert sum(t == "caption" for t, _ in tags) == sum(t == "table" for t, _ in tags)


def test_page_one_answers_in_order_and_is_one_page() -> None:
    first, second = _pages(_full().pdf, 2)
    wanted = [
        "No figure here was measured.",
        "What machine", "1.00 m", "What power", "3.9 kW", "2.9 to 4.8 kW",
        "12.9 MWh a year", "9.7 to 16.1 MWh",
        "What it costs", "0.41 EUR/kWh", "0.33 to 0.55 EUR/kWh", "0.52 EUR/kWh", "fuel that it saves",
        "0.79 EUR/kWh", "no band computed", "may cost more or less than the fuel it saves",
        "may lose up to 1850 EUR or save up to 1010 EUR a year", "the set can hardly ever stop",
        "What is unsure", "warning", "caution", "Not computed by this version: see chapter 5",
        "Does it ground", "+0.18 m", "floats clear",
        "Who must check what", "Hydrologist", "Permit authority",
    ]  # fmt: skip
    at = -1
    for text in wanted:
        found = first.find(_squeeze(text), at + 1)
        assert found > at, text
        at = found
    assert second.startswith("1Place")


def test_saving_with_the_set_off_is_told_only_where_it_can_stop() -> None:
    saved = _squeeze("saves 4600 EUR a year (2300 to 6900 EUR)")
    assert saved not in "".join(_pages(_full().pdf))
    c = sample.community()
    able = dataclasses.replace(c, comparison=dataclasses.replace(c.comparison, set_can_stop=True))
    (first,) = _pages(build(sample.full(community=able)).pdf, 1)
    assert saved in first
    assert "hardlyeverstop" not in first


def test_several_machines_are_counted_and_page_one_stays_one_page() -> None:
    first, second = _pages(build(sample.full(count=5)).pdf, 2)
    for text in ("5 machines", "12.9 MWh a year", "delivered by one", "64 MWh a year", "delivered by all 5"):
        assert _squeeze(text) in first, text
    assert second.startswith("1Place")


def test_what_is_not_computed_is_listed() -> None:
    printed = _pages(build(sample.full(missing=())).pdf)
    assert not any("Nochapterismissing" in p for p in printed)
    assert any("Whatismissing,whatisunsure" in p and "Tethers,anchors,debris" in p for p in printed[1:])


def test_the_largest_load_of_all_states_is_named() -> None:
    printed = "".join(_pages(_full().pdf))
    assert _squeeze("roll moment 640 N m (runaway at 2.50 m/s), thrust 1.90 kN (on load at 2.50 m/s)") in printed


def test_an_estimated_state_says_so_and_carries_its_remark() -> None:
    machine = sample.machine()
    held = State(
        "held",
        3.7,
        0.0,
        0.0,
        700.0,
        2100.0,
        900.0,
        0.95,
        False,
        "Beyond the solver: a bound.",
        -0.4,
        0.9,
        -6000.0,
        0.5,
    )
    text = " ".join(_read(build(sample.full(machine=dataclasses.replace(machine, states=(held,)))).html).text)
    assert "held, estimate" in text
    assert "Held: Beyond the solver: a bound." in text
    bare = build(sample.full(machine=dataclasses.replace(machine, states=())))
    assert "Loads in every state" not in " ".join(_read(bare.html).text)


def test_separation_is_said_in_the_machine_chapter_too() -> None:
    remark = Remark("caution", "The flow may leave the wall.", "separation")
    text = " ".join(_read(build(sample.full(remarks=(remark,))).html).text)
    machine = text[text.index("Shaft power at the design point is") : text.index("in a year of 8760 h")]
    assert remark.text in machine


def test_both_documents_say_the_same() -> None:
    """Every run of text of the page stands in the PDF."""
    printed = "".join(_pages(_full().pdf))
    skipped = {"title", "Chapters"}
    missing = [
        t.strip()
        for t in _read(_full().html).text
        if t.strip() and t.strip() not in skipped and _squeeze(t).lstrip("0123456789") not in printed
    ]
    allowed = {"River unit at the ferry reach: dossier", "The answers"}
    assert set(missing) <= allowed


def test_never_nan() -> None:
    text = " ".join(_read(_full().html).text)
    assert not re.search(r"\b(nan|inf|None)\b", text)


def test_aground_is_said_with_its_sign() -> None:
    dossier = build(sample.full(place=sample.place(-0.12)))
    (first,) = _pages(dossier.pdf, 1)
    assert _squeeze("\u22120.12 m between duct and bed") in first
    assert _squeeze("The duct is aground") in first


def test_nasty_text_is_shown_and_never_run() -> None:
    dossier = build(_nasty())
    reader = _read(dossier.html)
    assert not any(t == "script" for t, _ in reader.tags)
    assert sum(NASTY in t for t in reader.text) > 8
    printed = "".join(_pages(dossier.pdf))
    assert _squeeze("<script>alert('x')</script>#eval(\"1+1\")$x^2$\\*b*@ref&") in printed
    assert LONG in printed, "a long word is broken over lines, not lost"


@pytest.mark.parametrize("part", ["machine", "place"])
def test_partial_findings_make_a_dossier(part: str) -> None:
    gone: dict[str, object] = {"machine": None, "place": None, "energy": None, "community": None}
    gone.pop(part)
    dossier = build(sample.full(**gone))
    drawn = {
        "machine": {"stream", "triangles", "coefficients", "power", "sketch", "budget", "causes", "map", "control"},
        "place": {"standings", "duration"},
    }[part]
    assert set(dossier.figures) == drawn
    text = _squeeze(" ".join(_read(dossier.html).text))
    assert text.count(_squeeze("Nothing computed. This chapter needs")) == 3
    assert "Thisdossierisempty" not in text


def test_place_without_transect_says_what_it_needs() -> None:
    place = sample.place()
    bare = dataclasses.replace(
        place, site=dataclasses.replace(place.site, standings=(), discharge_curve=None, speed_curve=None)
    )
    dossier = build(sample.full(place=bare))
    assert "standings" not in dossier.figures
    assert "that needs a rating curve and a transect" in " ".join(_read(dossier.html).text)


def test_empty_findings_say_so_and_what_each_chapter_needs() -> None:
    dossier = build(sample.empty())
    assert dossier.figures == {}
    printed = "".join(_pages(dossier.pdf))
    for text in (
        "This dossier is empty",
        "needs a [place.x] table with a record",
        "needs a [machine.x] table with duct, hub, rows and drive",
        "needs a place and a machine joined by a [case.x] table",
        "needs a [community.x] table with its diesel set",
    ):
        assert _squeeze(text) in printed, text


def test_figures_are_the_wide_drawings() -> None:
    names = {"stream", "triangles", "coefficients", "power", "duration", "standings", "cost", "sketch"} | {
        "budget",
        "causes",
        "map",
        "control",
    }
    assert set(_full().figures) == names
    assert all(svg.startswith(b"<?xml") and svg.rstrip().endswith(b"</svg>") for svg in _full().figures.values())
