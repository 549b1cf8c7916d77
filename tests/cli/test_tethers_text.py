"""What `tethers` prints: answer and warnings lead, the worst cases follow, `--all` has every row."""

from __future__ import annotations

from racewright.cli.block_text import WIDTH, block_text
from racewright.dossier.chapters import held, held_short
from racewright.dossier.document import Block, Column, Points, Table
from tests.dossier.holding_found import found


def _tables(blocks: tuple[Block, ...]) -> list[Table]:
    return [b for b in blocks if isinstance(b, Table)]


def test_warnings_stand_before_every_other_table() -> None:
    for blocks in (held_short.short(found()), held_short.whole(found())):
        assert _tables(blocks)[0].caption == "Remarks on the holding"
        text = block_text(blocks)
        assert text.index("comes nearest to its strength") < text.index("A line may strum.") < text.index("\nLINES")
        assert max(len(line) for line in text.splitlines()) <= WIDTH


def test_the_short_text_has_the_worst_cases_and_says_what_it_leaves_out() -> None:
    short, whole = (block_text(f(found())) for f in (held_short.short, held_short.whole))
    assert len(short.splitlines()) < 0.65 * len(whole.splitlines())
    assert "--all and --json" in " ".join(short.split())
    assert "--all" not in whole
    (poses,) = [t for t in _tables(held_short.short(found())) if t.caption.startswith("Worst poses")]
    table = found().held.depths[0].intact
    most = max(range(len(table.states)), key=lambda s: table.tension[s, -1].max())
    assert any(table.states[most] in row[0] for row in poses.rows)
    (lost,) = [t for t in _tables(held_short.short(found())) if t.caption.startswith("Worst case of each lost")]
    assert len(lost.rows) == len({t.lost for t in found().held.lost})


def test_all_has_every_row_of_the_chapter() -> None:
    wanted, printed = _tables(held.blocks(found())), _tables(held_short.whole(found()))
    assert sorted(len(t.rows) for t in wanted) == sorted(len(t.rows) for t in printed)


def test_every_note_of_the_short_text_is_told() -> None:
    blocks = held_short.short(found())
    (notes,) = [b for b in blocks if isinstance(b, Points)]
    text = block_text(blocks)
    assert "read with note" in text
    assert all("Basis: " in note for note in notes.items)


def test_what_is_the_same_in_every_row_is_said_once() -> None:
    columns = (Column("line"), Column("stream"), Column("use"))
    table = Table("Lines", columns, (("a", "3 m/s", "5 %"), ("b", "3 m/s", "6 %")))
    once = held_short.said_once(table)
    assert once.caption == "Lines. In every row: stream 3 m/s"
    assert [c.name for c in once.columns] == ["line", "use"]
    assert once.rows == (("a", "5 %"), ("b", "6 %"))
    one = Table("Lines", columns, table.rows[:1])
    assert held_short.said_once(one) is one
