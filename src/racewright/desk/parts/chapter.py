"""A chapter of the dossier as a page shows it: final text in JSON, no numbers, pictures by name."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from racewright.desk.seam import Drawing
from racewright.dossier.document import Block, Chapter, Heading, Picture, Points, Table, Text


def told(chapter: Chapter) -> dict[str, Any]:
    """A chapter in parts: each has a heading ('' for what stands before the first) and its blocks."""
    parts: list[dict[str, Any]] = [{"heading": "", "blocks": []}]
    for block in chapter.blocks:
        if isinstance(block, Heading):
            parts.append({"heading": block.text, "blocks": []})
        else:
            parts[-1]["blocks"].append(block_told(block))
    return {"anchor": chapter.anchor, "title": chapter.title, "parts": [p for p in parts if p["blocks"]]}


def block_told(block: Block) -> dict[str, Any]:
    """A block that is no heading."""
    if isinstance(block, Text):
        return {"kind": "text", "text": block.text, "tone": block.tone}
    if isinstance(block, Picture):
        return {"kind": "picture", "name": block.name, "caption": block.caption, "alt": block.alt}
    if isinstance(block, Points):
        return {"kind": "points", "items": list(block.items)}
    assert isinstance(block, Table)  # headings part the chapter above
    columns = [{"name": column.name, "align": column.align} for column in block.columns]
    return {"kind": "table", "caption": block.caption, "columns": columns, "rows": [list(row) for row in block.rows]}


def pictures(chapter: Chapter) -> tuple[str, ...]:
    """Names of a chapter's pictures, in order."""
    return tuple(block.name for block in chapter.blocks if isinstance(block, Picture))


def paired(wide: Mapping[str, bytes], narrow: Mapping[str, bytes]) -> dict[str, Drawing]:
    """Drawings for the screen; one that is drawn in one width alone serves both."""
    return {name: Drawing(svg, narrow.get(name, svg)) for name, svg in wide.items()}
