"""What a chapter of the dossier says, as plain text."""

from __future__ import annotations

from racewright.dossier.document import Chapter, Heading, Picture, Points, Table, Text


def said_in(chapter: Chapter) -> str:
    """All words of a chapter, thin spaces as plain ones."""
    words: list[str] = []
    for block in chapter.blocks:
        if isinstance(block, Text | Heading):
            words.append(block.text)
        elif isinstance(block, Points):
            words += block.items
        elif isinstance(block, Table):
            words += [block.caption, *(" | ".join(row) for row in block.rows)]
        elif isinstance(block, Picture):
            words += [block.caption, block.alt]
    return "\n".join(words).replace("\u202f", " ").replace("\u2212", "-")
