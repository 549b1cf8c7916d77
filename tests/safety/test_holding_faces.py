"""What is printed of a holding: safety numbers with caution, basis and edition; blows and tensions apart."""

from __future__ import annotations

import dataclasses
import json
import re
from typing import Any

import pytest

from racewright.cli.block_text import WIDTH, block_text
from racewright.cli.encode import to_json
from racewright.cli.holding_answer import strikes_printed, tethers_printed
from racewright.dossier.chapters import held, struck
from racewright.dossier.document import Block, Points, Table
from tests.dossier.holding_found import found
from tests.safety.walk import bare_numbers

CHAPTERS = {"held": held.blocks, "struck": struck.blocks}
UNITS = re.compile(r"\d\s?(?:\u202f)?(?:[kM]?N|[kM]?J|kN/m|%)(?![a-z])")
PLAIN = ("Load states, all of them asked in every table beneath",)
"""Tables of what is put in, not of what comes out."""


def printed(what: str) -> dict[str, Any]:
    value = tethers_printed(found()) if what == "tethers" else strikes_printed(found())
    whole: dict[str, Any] = json.loads(to_json({what: value}, {}))
    return {what: whole[what]}


@pytest.mark.parametrize("what", ["tethers", "strikes"])
def test_no_safety_number_of_the_json_is_bare(what: str) -> None:
    assert list(bare_numbers(printed(what))) == []


def test_the_walk_finds_a_number_that_lost_its_words() -> None:
    whole = printed("strikes")
    whole["strikes"]["logs"][0]["safety"]["edition"] = ""
    assert ".strikes.logs[0].capacity_N" in set(bare_numbers(whole))


@pytest.mark.parametrize("chapter", CHAPTERS)
def test_every_row_points_to_a_note_with_basis_and_edition(chapter: str) -> None:
    blocks = CHAPTERS[chapter](found())
    notes = next(b for b in reversed(blocks) if isinstance(b, Points)).items
    tables = [b for b in blocks if isinstance(b, Table) and b.caption not in PLAIN and not _remarks(b)]
    assert len(tables) > 4
    for table in tables:
        assert table.columns[-1].name == "read with", table.caption
        for row in table.rows:
            for place in row[-1].partition(" ")[2].split(", "):
                note = notes[int(place) - 1]
                assert all(word in note for word in ("Basis: ", "Edition: ", "Known how: ")), note
    cautions = [n.partition("Basis: ")[0] for n in notes]
    assert all(len(c) > 60 or re.search(r"Caution as in note \d+", c) for c in cautions)


def _remarks(block: Block) -> bool:
    return isinstance(block, Table) and block.columns[0].name == "how grave"


@pytest.mark.parametrize("chapter", CHAPTERS)
def test_sentences_with_forces_name_their_note(chapter: str) -> None:
    for block in CHAPTERS[chapter](found()):
        text = getattr(block, "text", "")
        if UNITS.search(text):
            assert re.search(r"notes? \d", text), text


@pytest.mark.parametrize("chapter", CHAPTERS)
def test_slow_tension_is_never_called_an_impact(chapter: str) -> None:
    blocks = CHAPTERS[chapter](found())
    told = json.dumps([dataclasses.asdict(b) for b in blocks]) + block_text(blocks)
    assert not re.search(r"impact", told, re.IGNORECASE)
    assert "slow" in told


def test_printed_keys_keep_blow_and_tension_apart() -> None:
    log = printed("strikes")["strikes"]["logs"][0]
    assert log["slow_tension"]["name"] == "slow line tension"
    assert "impact" not in json.dumps(list(log))
    assert log["first_blow"]["force"]["safety"] != log["slow_tension"]["safety"]


def test_worst_case_table_has_loss_of_load_clogged_and_tree_by_default() -> None:
    rows = printed("tethers")["tethers"]["by_state"]
    for case in ("intact", "one line lost"):
        states = {row["state"] for row in rows if row["case"] == case}
        assert {"loss of load", "clogged", "tree"} <= states
    text = block_text(held.blocks(found()))
    table = text.partition("Worst case of every load state")[2].partition("Lines in their worst")[0]
    assert all(name in table for name in ("loss of load", "clogged", "tree"))


def test_sizes_name_the_load_case_that_drives_them() -> None:
    text = " ".join(block_text(held.blocks(found())).split())
    assert "The sizes are driven by line port bow, intact, tree, median at 2.60 m/s" in text


@pytest.mark.parametrize("chapter", CHAPTERS)
def test_terminal_text_keeps_its_width(chapter: str) -> None:
    assert max(len(line) for line in block_text(CHAPTERS[chapter](found())).splitlines()) <= WIDTH
