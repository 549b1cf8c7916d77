"""What a tidal record brings to the chapter on the place."""

from __future__ import annotations

from dataclasses import replace

from racewright.dossier.chapters.tide import tide_blocks
from racewright.dossier.document import Picture, Table
from racewright.ledger.findings import PlaceFindings
from tests.dossier.test_tide_figures import ALONG, ALONG_SITE, SITE, TIDE, TRACE

PLACE = PlaceFindings("strait", "", SITE.site, 10.0, (), tide=TIDE, tidal_site=SITE, tide_trace=TRACE)


def tables(place: PlaceFindings) -> dict[str, Table]:
    return {block.caption.split(";")[0]: block for block in tide_blocks(place) if isinstance(block, Table)}


def test_flood_ebb_and_constituents_stand_in_tables() -> None:
    found = tables(PLACE)
    ways = found["Flood and ebb"].rows
    assert [row[0] for row in ways] == ["flood", "ebb"]
    assert ways[0][-1].startswith(f"{SITE.ways[0].peak:.2f}")
    rows = found["Constituents by falling energy"].rows
    assert rows[0][0] == "M2"
    assert rows[0][1].startswith(f"{TIDE.constituents[0].amplitude:.3f}")
    assert {row[0] for row in found["What the record is too short to tell apart"].rows} == {
        one.name for one in TIDE.unseparated
    }


def test_pictures_are_those_that_can_be_drawn() -> None:
    shown = [block.name for block in tide_blocks(PLACE) if isinstance(block, Picture)]
    assert shown == ["tide_ways", "tide_trace", "tide_constituents"]
    table_only = replace(PLACE, tide=ALONG, tidal_site=ALONG_SITE, tide_trace=None)
    assert [b.name for b in tide_blocks(table_only) if isinstance(b, Picture)] == ["tide_ways", "tide_constituents"]
    rows = tables(table_only)["Constituents by falling energy"].rows
    assert {row[2] for row in rows} == {"not known"}


def test_a_place_without_a_tide_brings_nothing() -> None:
    assert tide_blocks(replace(PLACE, tide=None, tidal_site=None, tide_trace=None)) == ()
