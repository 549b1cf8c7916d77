"""Keep one scheme: its draft, its file, and who wants to know of changes."""

from __future__ import annotations

import difflib
import glob
from collections.abc import Callable, Mapping
from pathlib import Path

from racewright.desk.keeper.fault import ChangedOutsideError, StaleError
from racewright.desk.keeper.keys import Value
from racewright.desk.keeper.lock import turn
from racewright.desk.keeper.read import load_text
from racewright.desk.keeper.state import Draft, digest_of, read_draft, state_folder, write_draft
from racewright.desk.keeper.text import changed
from racewright.errors import InputError
from racewright.records.whole_file import write_whole
from racewright.scheme import LoadedScheme, load_scheme

_BOM = b"\xef\xbb\xbf"

Listener = Callable[[], None]


class Keeper:
    """The one holder of a scheme while the desk runs; every tab and the API work on its draft.

    Parameters
    ----------
    path : Path
        The scheme file; it must be sound.

    Raises
    ------
    InputError
        When the file cannot be read as a scheme, or its folder cannot be written.
    """

    def __init__(self, path: Path) -> None:
        load_scheme(path)
        self.path = path.resolve()
        self.shown = path
        try:
            self.folder = state_folder(self.path)
        except OSError as fault:
            message = f"its folder cannot be written ({(fault.strerror or str(fault)).lower()})"
            raise InputError(message, file=str(path)) from None
        data = self.path.read_bytes()
        self._bom = data.startswith(_BOM)
        self._listeners: list[Listener] = []
        self._stamp: tuple[int, int] = (0, 0)
        self._on_disk = digest_of(data)
        self.recovered = False
        """True where an earlier draft with changes not saved was found."""
        self._draft, self._loaded = self._begin(data)

    def _begin(self, data: bytes) -> tuple[Draft, LoadedScheme]:
        """The draft of an earlier day where it has changes that were not saved, else the file's text."""
        kept = read_draft(self.folder)
        if kept is not None:
            try:
                loaded = load_text(self._bytes(kept.text), self.shown)
            except InputError:
                kept = None
            else:
                if digest_of(self._bytes(kept.text)) == self._on_disk:  # a save that was not written down any more
                    kept = kept.saved(self._on_disk)
                same = digest_of(self._bytes(kept.text)) == kept.base
                if not same or kept.base == self._on_disk:
                    self.recovered = not same
                    return kept, loaded
        revision = kept.revision + 1 if kept else 1
        draft = Draft(self._text(data), self._on_disk, revision)
        return draft, load_text(data, self.shown)

    @property
    def loaded(self) -> LoadedScheme:
        """The draft, read and checked."""
        return self._loaded

    @property
    def revision(self) -> int:
        """Of the draft; an edit names the one that it was made on."""
        return self._draft.revision

    @property
    def text(self) -> str:
        """The draft as it would be saved."""
        return self._draft.text

    @property
    def data(self) -> bytes:
        """The draft's bytes as they would be saved."""
        return self._bytes(self._draft.text)

    @property
    def unsaved(self) -> bool:
        """True where the draft differs from the file that it was made from."""
        return digest_of(self.data) != self._draft.base

    @property
    def can_undo(self) -> bool:
        """True where there is a step back."""
        return bool(self._draft.undo)

    @property
    def can_redo(self) -> bool:
        """True where a step was taken back."""
        return bool(self._draft.redo)

    def saved_bytes(self) -> bytes | None:
        """The file as it stands now; None where it is gone, which the head of the page says."""
        try:
            return self.path.read_bytes()
        except OSError:
            return None

    @property
    def changed_outside(self) -> bool:
        """True where the file is not the one that the draft was made from; as of the last `look`."""
        return self._on_disk != self._draft.base

    def edit(self, changes: Mapping[str, Value], revision: int) -> LoadedScheme:
        """Set keys of the draft by dotted path; all of them, or none.

        Raises
        ------
        StaleError
            The draft has moved on since `revision`.
        InputError
            The scheme would not be sound; the key says where.
        """
        self._same(revision)
        text = changed(self._draft.text, changes)
        if text != self._draft.text:
            self._take(self._draft.moved(text))
        return self._loaded

    def undo(self, revision: int) -> LoadedScheme:
        """One step back."""
        self._same(revision)
        self._take(self._draft.undone())
        return self._loaded

    def redo(self, revision: int) -> LoadedScheme:
        """One step forward again."""
        self._same(revision)
        self._take(self._draft.redone())
        return self._loaded

    def save(self, revision: int, *, over: bool = False) -> None:
        """Write the draft to the scheme file, whole or not at all.

        Parameters
        ----------
        revision : int
        over : bool
            Write even though the file was changed outside.

        Raises
        ------
        StaleError, ChangedOutsideError, InputError
            Nothing was written.
        """
        self._same(revision)
        with turn(self.folder):
            self.look(force=True)
            if self.changed_outside and not over:
                raise ChangedOutsideError(
                    f"{self.path.name} was changed outside the desk since it was read; reload it, or keep the draft"
                    " and save again"
                )
            for rest in self.path.parent.glob(f".{glob.escape(self.path.name)}.*.part"):  # of a save that was killed
                rest.unlink(missing_ok=True)
            write_whole(self.path, self.data)
            self._on_disk = digest_of(self.data)
            self._draft = self._draft.saved(self._on_disk)
            self._stamp = (0, 0)
        write_draft(self.folder, self._draft)
        self._tell()

    def look(self, *, force: bool = False) -> bool:
        """Look whether the file was changed; True where that is news."""
        before = self._on_disk
        try:
            status = self.path.stat()
            stamp = (status.st_mtime_ns, status.st_size)
            if stamp != self._stamp or force:
                self._on_disk = digest_of(self.path.read_bytes())
                self._stamp = stamp
        except OSError:
            self._on_disk = "gone"
        news = self._on_disk != before
        if news:
            self._tell()
        return news

    def reload(self, revision: int) -> LoadedScheme:
        """Take the file as it is now; the draft before can be had back by undo.

        Raises
        ------
        InputError
            The file is not a sound scheme now; the draft stays.
        """
        self._same(revision)
        loaded = load_scheme(self.path)
        data = self.path.read_bytes()
        self._on_disk = digest_of(data)
        text = self._text(data)
        draft = self._draft.moved(text) if text != self._draft.text else self._draft
        self._take(draft.saved(self._on_disk))
        return loaded

    def keep(self, revision: int) -> None:
        """Keep the draft against the changed file; the next save writes over it."""
        self._same(revision)
        self._draft = self._draft.saved(self._on_disk)
        write_draft(self.folder, self._draft)
        self._tell()

    def compare(self) -> list[str]:
        """Lines of difference from the file as it is now to the draft."""
        try:
            there = self._text(self.path.read_bytes())
        except (OSError, UnicodeDecodeError):
            there = ""
        return list(
            difflib.unified_diff(there.splitlines(), self.text.splitlines(), "file", "draft", lineterm="", n=2)
        )

    def listen(self, listener: Listener) -> Callable[[], None]:
        """Call `listener` after every change; returns what ends that."""
        self._listeners.append(listener)

        def end() -> None:
            if listener in self._listeners:
                self._listeners.remove(listener)

        return end

    def _same(self, revision: int) -> None:
        if revision != self._draft.revision:
            raise StaleError(
                f"the scheme was changed elsewhere meanwhile (you saw revision {revision}, it is at "
                f"{self._draft.revision}); look at it and make the change again"
            )

    def _take(self, draft: Draft) -> None:
        """Read, tell, keep: what the tabs ask for is computed while the draft is written."""
        self._loaded = load_text(self._bytes(draft.text), self.shown)
        self._draft = draft
        self._tell()
        write_draft(self.folder, draft)

    def _tell(self) -> None:
        for listener in tuple(self._listeners):
            listener()

    def _bytes(self, text: str) -> bytes:
        return (_BOM if self._bom else b"") + text.encode()

    def _text(self, data: bytes) -> str:
        return data.decode("utf-8-sig")
