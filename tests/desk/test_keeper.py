"""The keeper: edits that leave everything else alone, undo, a draft that outlives it, saves that are whole."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from racewright.desk.keeper.fault import ChangedOutsideError, StaleError
from racewright.desk.keeper.keeper import Keeper
from racewright.desk.keeper.keys import meaning_of, parts_of, typed
from racewright.desk.keeper.lock import only_desk
from racewright.desk.keeper.text import changed
from racewright.errors import InputError
from racewright.scheme import load_scheme
from tests.desk.common import example

TURNED = "machine.river_unit.vanes.turned"


@pytest.fixture
def scheme(tmp_path: Path) -> Path:
    return example(tmp_path)


def _lines_that_differ(before: str, after: str) -> list[tuple[str, str]]:
    return [(a, b) for a, b in zip(before.splitlines(), after.splitlines(), strict=True) if a != b]


def test_an_edit_changes_its_line_and_keeps_the_comment(scheme: Path) -> None:
    before = scheme.read_text()
    after = changed(before, {TURNED: "2 deg", "case.first_unit.hub_height": "1.3 m"})
    differ = _lines_that_differ(before, after)
    assert [b.split("#")[0].split("=")[1].strip() for _a, b in differ] == ['"1.3 m"', '"2 deg"']
    for a, b in differ:
        assert a.partition("#")[2] == b.partition("#")[2]


def test_a_new_key_goes_to_the_end_of_its_own_table(scheme: Path) -> None:
    before = scheme.read_text()
    after = changed(before, {"machine.river_unit.duct.lip": 1.2})
    added = [line for line in after.splitlines() if line not in before.splitlines()]
    assert added == ["lip = 1.2"]
    lines = after.splitlines()
    assert lines[lines.index("lip = 1.2") - 1] == "thickness = 0.14"


def test_a_key_goes_and_comes_in_a_table_that_was_not_there(scheme: Path) -> None:
    text = changed(scheme.read_text(), {"place.otter_bend.doubt.area": 0.04})
    assert "[place.otter_bend.doubt]" in text
    assert "doubt" in text
    assert (
        "area" not in changed(text, {"place.otter_bend.doubt.area": None}).split("[place.otter_bend.doubt]")[1][:20]
    )


@pytest.mark.parametrize(
    "path", ["", ".", "a..b", "a.", ".a", "a b", "a.'b'", 'a."b', "a\n.b", "x" * 401, "a.b\x00", "ä"]
)
def test_what_is_no_path_is_refused(path: str) -> None:
    with pytest.raises(InputError, match="is no key"):
        parts_of(path)


def test_quoted_parts_are_taken() -> None:
    assert parts_of('place."ötter.bend".depth') == ("place", "ötter.bend", "depth")


def test_text_becomes_what_the_key_takes() -> None:
    assert typed(TURNED, " 2 deg ") == "2 deg"
    assert typed("machine.x.vanes.count", "7") == 7
    assert typed("machine.x.duct.thickness", "0.14") == 0.14
    assert typed("machine.x.duct.thickness", "14 %") == "14 %"
    assert typed("place.x.invented", "true") is True
    assert typed("place.x.depth", "") is None
    assert typed("title", "") == ""
    meaning = meaning_of("place.x.profile_exponent")
    assert meaning is not None
    assert meaning.default == "6"
    assert meaning_of("place.x.no_such_key") is None


def test_a_fault_names_its_key_and_changes_nothing(scheme: Path) -> None:
    keeper = Keeper(scheme)
    with pytest.raises(InputError) as caught:
        keeper.edit({TURNED: "2 m"}, keeper.revision)
    assert caught.value.key == TURNED
    assert caught.value.file == str(scheme)
    assert scheme.read_text().splitlines()[(caught.value.line or 0) - 1].startswith("turned")
    assert (keeper.revision, keeper.text, keeper.unsaved) == (1, scheme.read_text(), False)


def test_all_of_an_edit_or_none(scheme: Path) -> None:
    keeper = Keeper(scheme)
    with pytest.raises(InputError):
        keeper.edit({"title": "Changed", TURNED: "far"}, keeper.revision)
    assert keeper.loaded.scheme.title == "River unit at Otter Bend"


def test_undo_and_redo_go_back_and_forth(scheme: Path) -> None:
    keeper = Keeper(scheme)
    begun = keeper.text
    keeper.edit({TURNED: "2 deg"}, keeper.revision)
    keeper.edit({TURNED: "3 deg"}, keeper.revision)
    after = keeper.text
    keeper.undo(keeper.revision)
    keeper.undo(keeper.revision)
    assert keeper.text == begun
    assert not keeper.can_undo
    keeper.redo(keeper.revision)
    keeper.redo(keeper.revision)
    assert keeper.text == after
    assert not keeper.can_redo


def test_a_stale_edit_is_refused_with_a_message(scheme: Path) -> None:
    """Two tabs see revision 1; the second to edit is told, and the first one's edit stands."""
    keeper = Keeper(scheme)
    seen = keeper.revision
    keeper.edit({TURNED: "2 deg"}, seen)
    with pytest.raises(StaleError, match="changed elsewhere"):
        keeper.edit({TURNED: "5 deg"}, seen)
    assert '"2 deg"' in keeper.text


def test_the_draft_survives_and_the_file_is_untouched(scheme: Path) -> None:
    before = scheme.read_bytes()
    keeper = Keeper(scheme)
    keeper.edit({TURNED: "2 deg"}, keeper.revision)
    again = Keeper(scheme)
    assert again.text == keeper.text
    assert again.revision == keeper.revision
    assert again.recovered
    assert again.can_undo
    assert scheme.read_bytes() == before


def test_a_damaged_draft_is_no_draft(scheme: Path) -> None:
    keeper = Keeper(scheme)
    keeper.edit({TURNED: "2 deg"}, keeper.revision)
    kept = keeper.folder / "draft.json"
    for damage in (b"", b"{", kept.read_bytes()[:-40], b'{"form": 1}', b'{"form": 9}', b"[]"):
        kept.write_bytes(damage)
        assert Keeper(scheme).text == scheme.read_text()


def test_save_writes_what_stands_and_loads(scheme: Path) -> None:
    keeper = Keeper(scheme)
    keeper.edit({TURNED: "2 deg"}, keeper.revision)
    keeper.save(keeper.revision)
    assert scheme.read_text() == keeper.text
    assert not keeper.unsaved
    assert load_scheme(scheme).digest == keeper.loaded.digest
    assert [p.name for p in scheme.parent.iterdir() if p.name.endswith(".part")] == []


def test_a_mark_at_the_start_and_windows_endings_stay(tmp_path: Path) -> None:
    scheme = example(tmp_path)
    scheme.write_bytes(b"\xef\xbb\xbf" + scheme.read_bytes().replace(b"\n", b"\r\n"))
    keeper = Keeper(scheme)
    before = scheme.read_bytes()
    keeper.edit({TURNED: "2 deg"}, keeper.revision)
    keeper.save(keeper.revision)
    assert scheme.read_bytes() == before.replace(b'turned = "0 deg"', b'turned = "2 deg"', 1)


def test_a_file_changed_outside_is_noticed_and_never_overwritten_unasked(scheme: Path) -> None:
    keeper = Keeper(scheme)
    heard: list[int] = []
    end = keeper.listen(lambda: heard.append(1))
    keeper.edit({TURNED: "2 deg"}, keeper.revision)
    outside = scheme.read_text().replace("Otter Bend", "Heron Bend")
    scheme.write_text(outside)
    os.utime(scheme, ns=(1, 1))
    assert keeper.look()
    assert keeper.changed_outside
    with pytest.raises(ChangedOutsideError, match="changed outside"):
        keeper.save(keeper.revision)
    assert scheme.read_text() == outside
    assert any("Heron" in line for line in keeper.compare())
    end()
    assert len(heard) == 2


def test_reload_takes_the_file_and_undo_gives_the_draft_back(scheme: Path) -> None:
    keeper = Keeper(scheme)
    keeper.edit({TURNED: "2 deg"}, keeper.revision)
    mine = keeper.text
    scheme.write_text(scheme.read_text().replace("Otter Bend", "Heron Bend"))
    keeper.look(force=True)
    keeper.reload(keeper.revision)
    assert "Heron" in keeper.text
    assert not keeper.unsaved
    keeper.undo(keeper.revision)
    assert keeper.text == mine


def test_keep_lets_the_next_save_replace_the_file(scheme: Path) -> None:
    keeper = Keeper(scheme)
    keeper.edit({TURNED: "2 deg"}, keeper.revision)
    scheme.write_text("broken = ")
    keeper.look(force=True)
    with pytest.raises(InputError):
        keeper.reload(keeper.revision)
    keeper.keep(keeper.revision)
    keeper.save(keeper.revision)
    assert scheme.read_text() == keeper.text


def test_one_desk_for_a_scheme(scheme: Path) -> None:
    keeper = Keeper(scheme)
    with (
        only_desk(keeper.folder, "http://127.0.0.1:1/"),
        pytest.raises(InputError, match=r"http://127\.0\.0\.1:1/"),
        only_desk(keeper.folder, "http://127.0.0.1:2/"),
    ):
        pass
    with only_desk(keeper.folder, "http://127.0.0.1:3/"):
        pass
