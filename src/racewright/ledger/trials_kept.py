"""Raw data of a run that the campaign's store keeps, for when the logger's file is gone."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

from racewright.ledger.roles import Roles
from racewright.ledger.trials_things import source_of
from racewright.records.campaign.store import MARKER, RAW
from racewright.scheme.load import LoadedScheme

_RUNS = "trials.runs."


def campaign_folder(loaded: LoadedScheme, name: str) -> Path:
    """Where the campaign of [trials.NAME] is kept: `campaign_NAME` beside the scheme."""
    return loaded.folder / f"campaign_{name}"


def kept_raw(loaded: LoadedScheme, roles: Roles, run: str) -> Path | None:
    """The store's raw data of a run, read by the mapping that the scheme has now; None without, or with several."""
    folder = campaign_folder(loaded, roles.names["trials"])
    if not (folder / MARKER).is_file():
        return None
    keys: dict[str, Any] = roles.plain("trials")
    digest = source_of(keys["channels"], keys["logger"], keys["runs"][run]).digest[:8]
    pattern = rf"{re.escape(run)}-[0-9a-f]{{12}}-{digest}\.parquet"
    try:
        found = [path for path in (folder / RAW).iterdir() if re.fullmatch(pattern, path.name)]
    except OSError:  # a store that cannot be read is none
        return None
    return found[0] if len(found) == 1 else None


def logger_file(loaded: LoadedScheme, roles: Roles, path: str, name: str) -> Path:
    """A data file of the scheme; where it is a logger's and gone, what the store kept of it.

    Parameters
    ----------
    loaded, roles
        The scheme and the case's tables.
    path : str
        Role path of the key that names the file.
    name : str
        The file as named.

    Raises
    ------
    InputError
        There is neither.
    """
    if path.startswith(_RUNS) and name and not (loaded.folder / name).exists():
        kept = kept_raw(loaded, roles, path.removeprefix(_RUNS).removesuffix(".file"))
        if kept is not None:
            return kept
    return loaded.data_file(name, *roles.scheme_path(path))


def of_store(path: Path) -> bool:
    """Whether a file is raw data of a campaign's store."""
    return path.parent.name == RAW and (path.parent.parent / MARKER).is_file()
