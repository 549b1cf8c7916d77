"""Read a scheme file: TOML, then tables, then the rules between tables; each error names file, line and key."""

from __future__ import annotations

import difflib
import hashlib
import re
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NoReturn

from pydantic import BaseModel, ValidationError

from racewright.errors import InputError, MissingColumn
from racewright.scheme.inside import inside
from racewright.scheme.locate import key_lines, line_of
from racewright.scheme.migrate import FORMAT, migrate
from racewright.scheme.model import Scheme
from racewright.scheme.rules import broken_rules

LARGEST_SCHEME = 1_000_000
"""Largest scheme file that is read [bytes]."""

Keys = tuple[str, ...]


@dataclass(frozen=True)
class LoadedScheme:
    """A scheme with what is needed to speak of it.

    Attributes
    ----------
    scheme : Scheme
    raw : dict
        The same tables as written, for showing inputs.
    lines : dict
        Line of each key.
    file : str
        The path as the user gave it.
    folder : Path
        Where data files are looked for.
    digest : str
        SHA-256 of the file's bytes, hex.
    written_format : int
        Format version of the file; `scheme` and `raw` are in today's.
    """

    scheme: Scheme
    raw: dict[str, Any]
    lines: dict[Keys, int]
    file: str
    folder: Path
    digest: str
    written_format: int

    def error(self, message: str, *keys: str) -> InputError:
        """An input error that points at a key of this scheme."""
        return InputError(message, file=self.file, line=line_of(self.lines, keys), key=".".join(keys) or None)

    def column_error(self, fault: MissingColumn, table: BaseModel, *keys: str) -> InputError:
        """A missing column of a data file, pointed at the key of `table` that names it."""
        named = (k for k in type(table).model_fields if k.endswith("_column") and getattr(table, k) == fault.column)
        line = "" if fault.line is None else f", line {fault.line}"
        return self.error(f"{Path(fault.file or '').name}{line}: {fault.message}", *keys, next(named, "file"))

    def data_file(self, name: str, *keys: str) -> Path:
        """Path of a data file that a key names; an error points at the key when it is not there."""
        try:
            path = inside(self.folder, name)
        except InputError as fault:
            raise self.error(fault.message, *keys) from None
        if not path.exists():
            raise self.error(f"no file {name!r} beside the scheme; put it there or correct the name", *keys)
        return path


def load_scheme(path: Path | str) -> LoadedScheme:
    """Read and check a scheme file.

    Parameters
    ----------
    path : Path or str
        Of the file; data files are looked for beside it.

    Raises
    ------
    InputError
        Names file, line and key, what was found and what would be right. With several faults, the first by line.
    """
    path, shown = Path(path), str(path)
    data = _read_bytes(path, shown)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        line = data[: fault.start].count(b"\n") + 1
        raise InputError("not UTF-8 text; save the scheme as UTF-8", file=shown, line=line) from None
    try:
        raw = tomllib.loads(text)
        lines = key_lines(text)
        written = _format_of(raw, shown, lines)
        raw = migrate(raw, written)
    except tomllib.TOMLDecodeError as fault:
        _raise_toml(fault, shown)
    except RecursionError:
        raise InputError("tables or arrays are nested too deeply; a scheme needs three levels", file=shown) from None
    except ValueError as fault:  # Python's limit on the digits of a whole number
        raise InputError(f"not valid TOML: {str(fault).split(';')[0].lower()}", file=shown) from None
    try:
        scheme = Scheme.model_validate(raw)
    except ValidationError as fault:
        raise _first_fault(fault, shown, lines) from None
    loaded = LoadedScheme(scheme, raw, lines, shown, path.parent, hashlib.sha256(data).hexdigest(), written)
    for message, keys in broken_rules(scheme):
        raise loaded.error(message, *keys)
    return loaded


def _read_bytes(path: Path, shown: str) -> bytes:
    if path.is_dir():
        raise InputError(f"is a folder; name the scheme file, like {path / 'scheme.toml'}", file=shown)
    try:
        with path.open("rb") as stream:
            data = stream.read(LARGEST_SCHEME + 1)
    except FileNotFoundError:
        raise InputError("no such file; 'racewright new FOLDER' makes an example", file=shown) from None
    except (OSError, ValueError) as fault:
        raise InputError(f"cannot be read ({_reason(fault)})", file=shown) from None
    if len(data) > LARGEST_SCHEME:
        raise InputError("is larger than 1 MB; a scheme is a few kilobytes, records go in CSV files", file=shown)
    return data


def _reason(fault: Exception) -> str:
    return (fault.strerror or str(fault)).lower() if isinstance(fault, OSError) else str(fault)


def _raise_toml(fault: tomllib.TOMLDecodeError, shown: str) -> NoReturn:
    found = re.search(r"^(.*) \(at line (\d+), column (\d+)\)$", str(fault), re.DOTALL)
    if found is None:
        raise InputError(f"not valid TOML: {str(fault)[:200]}", file=shown) from None
    raise InputError(
        f"not valid TOML: {found[1][:200]} (column {found[3]})", file=shown, line=int(found[2])
    ) from None


def _format_of(raw: dict[str, Any], shown: str, lines: dict[Keys, int]) -> int:
    """The format version that the file is written in."""
    found = raw.get("format")
    if found is None:
        raise InputError(f"missing; write 'format = {FORMAT}' at the top", file=shown, key="format")
    line = line_of(lines, ("format",))
    if isinstance(found, bool) or not isinstance(found, int) or found < 1:
        raise InputError(
            f"found {repr(found)[:60]}; write a whole number from 1 to {FORMAT}", file=shown, line=line, key="format"
        )
    if found > FORMAT:
        message = f"{found} is newer than this program, which reads format {FORMAT}; update racewright"
        raise InputError(message, file=shown, line=line, key="format")
    return found


def _first_fault(fault: ValidationError, shown: str, lines: dict[Keys, int]) -> InputError:
    """The fault to tell: an unknown key before its missing twin, else the first in the file."""
    told = []
    for item in fault.errors(include_url=False):
        keys = tuple(str(k) for k in item["loc"])
        told.append((item["type"] == "missing", line_of(lines, keys) or 0, keys, _words(item, keys)))
    _missing, line, keys, message = min(told, key=lambda t: t[:3])
    more = f" (and {len(told) - 1} more)" if len(told) > 1 else ""
    return InputError(message + more, file=shown, line=line or None, key=".".join(keys))


def _words(item: Any, keys: Keys) -> str:
    kind = item["type"]
    if kind == "value_error":
        return str(item["ctx"]["error"])
    if kind == "missing":
        return f"missing; the table needs the key '{keys[-1]}'{_meaning(keys)}"
    if kind == "extra_forbidden":
        known = _known_keys(keys[:-1])
        near = difflib.get_close_matches(keys[-1], known, n=1, cutoff=0.5)
        if near:
            return f"unknown key; did you mean '{near[0]}'?"
        return f"unknown key; this table takes {', '.join(known)}"
    if kind in ("model_type", "model_attributes_type", "dict_type"):
        return f"must be a table, like [{'.'.join(keys)}]"
    if kind == "string_too_short":
        return "is empty; write a name"
    return str(item["msg"])


def _table_at(keys: Keys) -> type[BaseModel] | None:
    """The table class that stands at a path of the scheme."""
    table: Any = Scheme
    for key in keys:
        if isinstance(table, type) and issubclass(table, BaseModel):
            field = table.model_fields.get(key)
            table = None if field is None else field.annotation
        else:
            named = [a for a in getattr(table, "__args__", ()) if a is not type(None)]
            table = named[-1] if named else None  # dict[str, Table]
        if not isinstance(table, type) and type(None) in getattr(table, "__args__", ()):
            table = next(a for a in table.__args__ if a is not type(None))
    return table if isinstance(table, type) and issubclass(table, BaseModel) else None


def _known_keys(keys: Keys) -> list[str]:
    table = _table_at(keys)
    return list(table.model_fields) if table else []


def _meaning(keys: Keys) -> str:
    table = _table_at(keys[:-1])
    field = table.model_fields.get(keys[-1]) if table else None
    return f" ({field.description})" if field and field.description else ""
