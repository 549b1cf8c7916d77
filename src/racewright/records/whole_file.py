"""Write one file so that a kill leaves the old one or the new one, whole."""

from __future__ import annotations

import contextlib
import os
import tempfile
from pathlib import Path

from racewright.errors import InputError


def write_whole(path: Path, content: bytes) -> None:
    """Write beside the file, force to disk, then take its place in one step.

    Parameters
    ----------
    path : Path
        Its folder must be there.
    content : bytes

    Raises
    ------
    InputError
        When the file cannot be written.
    """
    part = ""
    try:
        if path.is_dir():
            raise InputError("is a folder; name a file, like bins.csv", file=str(path))
        handle, part = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        os.chmod(part, 0o666 & ~_umask())
        os.replace(part, path)
        part = ""
    except OSError as fault:
        message = f"cannot be written ({(fault.strerror or str(fault)).lower()}); name a file in a writable folder"
        raise InputError(message, file=str(path)) from None
    finally:
        if part:
            with contextlib.suppress(OSError):
                os.unlink(part)


def _umask() -> int:
    """The process's mask for new files, which `mkstemp` does not heed."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
