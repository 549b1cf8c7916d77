"""Files dropped on a page: their kind told from name and first bytes, kept under a name of the desk's own."""

from __future__ import annotations

import filecmp
import os
import re
import tempfile
from collections.abc import Collection, Mapping
from pathlib import Path

from racewright.errors import InputError
from racewright.scheme.inside import inside

ENDINGS = (".csv", ".txt", ".tsv", ".parquet", ".tdms")
"""Kinds of logger files that are taken."""
_MAGIC = {".parquet": b"PAR1", ".tdms": b"TDSm"}
HEAD = 4096
"""First bytes that are looked at."""
_LONGEST = 40


def ending_of(dropped: str, head: bytes) -> str:
    """The ending that a dropped file is kept with.

    Parameters
    ----------
    dropped : str
        Its name on the user's machine; only its ending counts.
    head : bytes
        Its first `HEAD` bytes.

    Raises
    ------
    InputError
        Another ending, an empty file, or bytes that are not what the ending says.
    """
    ending = os.path.splitext(dropped)[1].lower()
    if ending not in ENDINGS:
        raise InputError(f"a logger file ends in {', '.join(ENDINGS[:-1])} or {ENDINGS[-1]}")
    if not head:
        raise InputError("the file is empty")
    if ending in _MAGIC and not head.startswith(_MAGIC[ending]):
        raise InputError(f"its first bytes are not those of a {ending} file")
    if ending not in _MAGIC and b"\0" in head and not head.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise InputError(f"holds bytes that no text has; it is no {ending} file")
    return ending


def free_name(dropped: str, taken: Collection[str]) -> str:
    """A name for a run from plain letters of the dropped file's name; numbered when it is taken."""
    stem = os.path.splitext(re.split(r"[/\\]", dropped)[-1])[0]
    base = re.sub(r"[^A-Za-z0-9]+", "_", stem).strip("_")[:_LONGEST] or "run"
    number, name = 1, base
    while name in taken:
        number += 1
        name = f"{base}_{number}"
    return name


def already(part: Path, folder: Path, files: Mapping[str, str]) -> list[str]:
    """Runs whose file has the very bytes of a dropped one.

    Parameters
    ----------
    part : Path
        The dropped file.
    folder : Path
        Of the scheme.
    files : mapping of str to str
        File beside the scheme, by run.
    """
    equal = {name: _equal(part, folder, name) for name in dict.fromkeys(files.values())}
    return [run for run, name in files.items() if equal[name]]


def _equal(part: Path, folder: Path, name: str) -> bool:
    try:
        return filecmp.cmp(part, inside(folder, name), shallow=False)
    except (OSError, InputError):  # not there, or not to be looked at: then it is none of ours
        return False


def part_in(folder: Path) -> Path:
    """An empty file beside the scheme to write to; `keep` or the caller removes it."""
    handle, part = tempfile.mkstemp(dir=folder, prefix=".dropped.", suffix=".part")
    os.close(handle)
    return Path(part)


def left_over(part: Path, run: str, ending: str) -> str:
    """The name that `keep` would give, where a file of that name with the very bytes is there; else ''."""
    name = _kept(run, ending)
    return name if _equal(part, part.parent, name) else ""


def _kept(run: str, ending: str) -> str:
    return f"run_{run}{ending}"


def keep(part: Path, run: str, ending: str) -> str:
    """Give a written part its name, `run_NAME.ending`; a file that is there already is never replaced.

    Raises
    ------
    InputError
        There is a file of that name.
    """
    final = part.with_name(_kept(run, ending))
    with part.open("rb") as stream:
        os.fsync(stream.fileno())
    try:
        os.link(part, final)
    except FileExistsError:
        raise InputError("there is a file of that name already; rename the one you drop", file=final.name) from None
    finally:
        part.unlink(missing_ok=True)
    os.chmod(final, 0o644)
    return final.name
