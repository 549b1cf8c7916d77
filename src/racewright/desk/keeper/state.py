"""The draft on disk: one file in a hidden folder beside the scheme, written whole after every change."""

from __future__ import annotations

import hashlib
import json
from dataclasses import asdict, dataclass
from pathlib import Path

from racewright.records.whole_file import write_whole

FORM = 1
"""Form of the draft file; another form is not read."""
STEPS = 100
"""Texts kept for undo, and for redo."""


@dataclass(frozen=True)
class Draft:
    """The scheme as it is worked on.

    Attributes
    ----------
    text : str
    base : str
        SHA-256 of the file that the draft was made from or last saved to, hex.
    revision : int
        Grows by one with every change, from 1.
    undo, redo : tuple of str
        Texts before and after, the nearest last.
    """

    text: str
    base: str
    revision: int = 1
    undo: tuple[str, ...] = ()
    redo: tuple[str, ...] = ()

    def moved(self, text: str) -> Draft:
        """The draft with another text; the present one can be had back."""
        return Draft(text, self.base, self.revision + 1, (*self.undo, self.text)[-STEPS:])

    def undone(self) -> Draft:
        """One step back; itself when there is none."""
        if not self.undo:
            return self
        return Draft(self.undo[-1], self.base, self.revision + 1, self.undo[:-1], (*self.redo, self.text)[-STEPS:])

    def redone(self) -> Draft:
        """One step forward again; itself when there is none."""
        if not self.redo:
            return self
        return Draft(self.redo[-1], self.base, self.revision + 1, (*self.undo, self.text)[-STEPS:], self.redo[:-1])

    def saved(self, base: str) -> Draft:
        """The same text, with the file that it is now compared with."""
        return Draft(self.text, base, self.revision, self.undo, self.redo)


def digest_of(data: bytes) -> str:
    """SHA-256, hex."""
    return hashlib.sha256(data).hexdigest()


def state_folder(scheme: Path) -> Path:
    """The hidden folder of a scheme, made when it is not there; nothing in it is needed to compute."""
    folder = scheme.parent / ".racewright" / scheme.name
    folder.mkdir(parents=True, exist_ok=True)
    unwanted = folder.parent / ".gitignore"
    if not unwanted.exists():
        unwanted.write_text("*\n")
    return folder


def write_draft(folder: Path, draft: Draft) -> None:
    """Keep the draft."""
    write_whole(folder / "draft.json", json.dumps({"form": FORM, **asdict(draft)}).encode())


def read_draft(folder: Path) -> Draft | None:
    """The draft that was kept; None without one, or when it is damaged or of another form."""
    try:
        kept = json.loads((folder / "draft.json").read_bytes())
        if kept.pop("form") != FORM:
            return None
        draft = Draft(**{**kept, "undo": tuple(kept["undo"]), "redo": tuple(kept["redo"])})
    except (OSError, ValueError, TypeError, KeyError, AttributeError):
        return None
    texts = (draft.text, draft.base, *draft.undo, *draft.redo)
    sound = all(isinstance(t, str) for t in texts) and isinstance(draft.revision, int)
    return draft if sound else None
