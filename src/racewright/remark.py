"""Warnings as data: what a result wants its reader to know."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Severity = Literal["note", "caution", "warning"]


@dataclass(frozen=True)
class Remark:
    """One remark that travels with a result.

    Attributes
    ----------
    severity : {'note', 'caution', 'warning'}
        'note' informs, 'caution' asks the reader to check, 'warning' says a limit is passed.
    text : str
        One or two plain sentences, with numbers and units where there are any.
    about : str
        Short subject, e.g. 'cover', 'convergence', 'tip clearance'.
    """

    severity: Severity
    text: str
    about: str
