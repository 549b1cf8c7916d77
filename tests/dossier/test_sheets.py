"""The PDF's pages are numbered one after the other, however full the page of answers is."""

from __future__ import annotations

import io
import logging
import re

import pytest
from pypdf import PdfReader

from racewright.dossier.document import Answer, Chapter, Column, Document, Table, Text
from racewright.dossier.drawings import Drawings
from racewright.dossier.sheets import sheets

TABLE = Table("figures", (Column("what"), Column("value", "end")), tuple((f"row {i}", f"{i}") for i in range(12)))


def document(lines: int) -> Document:
    """Answers of so many lines, then two chapters with tables that stay whole."""
    answer = Answer("What is it?", (("5 kW", "at design"),), tuple(f"Line {i} of the answer." for i in range(lines)))
    blocks = (Text("Words before a table.", "lead"), TABLE, Text("Words after it."), TABLE)
    chapters = tuple(Chapter(f"c{k}", f"Chapter {k}", blocks) for k in range(2))
    return Document("A machine", "one", "", ("Made up.",), (answer, answer), chapters, "provenance")


@pytest.mark.parametrize("lines", range(14, 24))
def test_pages_are_numbered_in_turn(lines: int, caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.WARNING):
        pdf = sheets(document(lines), Drawings({}, {}))
    texts = [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]
    numbers = [re.findall(r"(\d+) of (\d+)", text)[-1] for text in texts]
    assert numbers == [(str(k + 1), str(len(texts))) for k in range(len(texts))]
    assert caplog.records == []
