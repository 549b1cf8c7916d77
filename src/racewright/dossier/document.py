"""The dossier before it is set: chapters of blocks, all text final. HTML and PDF are both made from this."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

Align = Literal["start", "end"]


@dataclass(frozen=True)
class Text:
    """A paragraph; `tone` is 'plain', 'lead' (the chapter's answer) or 'safety'."""

    text: str
    tone: Literal["plain", "lead", "safety"] = "plain"
    kind: Literal["text"] = field(default="text", init=False)


@dataclass(frozen=True)
class Heading:
    """A heading inside a chapter."""

    text: str
    kind: Literal["heading"] = field(default="heading", init=False)


@dataclass(frozen=True)
class Column:
    """A column's heading, side to line up on, and share of the width (a relative number)."""

    name: str
    align: Align = "start"
    share: float = 1.0


@dataclass(frozen=True)
class Table:
    """A table with a caption; the first cell of a row is its heading.

    `mono` columns hold keys as typed. `shape` 'facts' is for name, value, words: on a phone the words stand
    beneath.
    """

    caption: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    mono: tuple[int, ...] = ()
    shape: Literal["plain", "facts"] = "plain"
    kind: Literal["table"] = field(default="table", init=False)


@dataclass(frozen=True)
class Picture:
    """A figure by name, its caption, and what it shows for a reader who cannot see it."""

    name: str
    caption: str
    alt: str
    kind: Literal["picture"] = field(default="picture", init=False)


@dataclass(frozen=True)
class Points:
    """A list of sentences."""

    items: tuple[str, ...]
    kind: Literal["points"] = field(default="points", init=False)


Block = Text | Heading | Table | Picture | Points


@dataclass(frozen=True)
class Chapter:
    """A chapter; `anchor` is its place in the page."""

    anchor: str
    title: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True)
class Mark:
    """A remark on page one: severity word, subject, text."""

    severity: str
    about: str
    text: str


@dataclass(frozen=True)
class Answer:
    """One answer of page one: the question, the figures in large type, and the sentences beneath."""

    question: str
    headlines: tuple[tuple[str, str], ...]
    lines: tuple[str, ...] = ()
    marks: tuple[Mark, ...] = ()
    table: Table | None = None
    picture: Picture | None = None


@dataclass(frozen=True)
class Document:
    """The whole dossier.

    `notice` holds the sentences on what is invented, `empty` says that nothing was computed.
    """

    title: str
    case: str
    empty: str
    notice: tuple[str, ...]
    answers: tuple[Answer, ...]
    chapters: tuple[Chapter, ...]
    provenance: str
