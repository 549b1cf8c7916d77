"""Make the dossier of a draft in a worker: the report folder of the `report` command, and its two documents."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from racewright.tick import Tick, silent

_COMPUTED = 0.4
"""Share of the progress bar that computing takes. Own choice."""
_BUILT = 0.98
"""Where the documents stand and the folder is still to be written."""


@dataclass(frozen=True)
class Made:
    """A dossier that stands.

    Attributes
    ----------
    folder : str
        Of the report below `reports`, with its number.
    html, pdf : bytes
        The two documents.
    """

    folder: str
    html: bytes
    pdf: bytes


def doing(fraction: float) -> str:
    """What `make_dossier` does when it is so far, in words.

    Parameters
    ----------
    fraction : float
        Of its tick [-].
    """
    from racewright.dossier.build import DRAWN, PAGED

    if fraction < _COMPUTED:
        return "Computing the draft"
    built = (fraction - _COMPUTED) / (_BUILT - _COMPUTED)
    if built < DRAWN:
        return "Drawing the figures"
    return "Setting the page" if built < PAGED else "Setting the sheets of the PDF"


def make_dossier(data: bytes, path: Path, case: str | None, chapters: tuple[str, ...], tick: Tick = silent) -> Made:
    """Compute the draft, set the chosen chapters, write the next report folder beside the scheme.

    Parameters
    ----------
    data : bytes
        The draft.
    path : Path
        Of the scheme's file.
    case : str or None
        The first when None.
    chapters : tuple of str
        Anchors to print besides those that every dossier has.
    tick : Tick
        A cancel between two of its calls leaves the reports as they were.

    Raises
    ------
    InputError
        As the computation has it, or a reports folder that cannot be written.
    """
    from racewright.cli.report import report_files, report_name
    from racewright.desk import memory
    from racewright.desk.keeper.read import load_text
    from racewright.dossier.build import build
    from racewright.errors import InputError
    from racewright.records.reports import write_report

    root = path.parent / "reports"
    if root.exists() and not root.is_dir():
        raise InputError("is a file; the reports stand in a folder of that name", file=str(root))
    found = memory.findings(load_text(data, path), case, lambda done: tick(_COMPUTED * done))
    dossier = build(found, chapters, lambda done: tick(_COMPUTED + (_BUILT - _COMPUTED) * done))
    latest = write_report(root, report_name(found.case), report_files(found, dossier))
    return Made(latest.resolve().name, dossier.html, dossier.pdf)
