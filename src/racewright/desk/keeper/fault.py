"""What an edit is refused for, in a form that a screen can place beside a field."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.errors import InputError, RacewrightError


class StaleError(RacewrightError):
    """The edit was made on an older revision of the draft than the one that stands; nothing was changed."""

    exit_code = 2


class ChangedOutsideError(RacewrightError):
    """The scheme file is not the one that the draft was made from; nothing was written."""

    exit_code = 2


@dataclass(frozen=True)
class Fault:
    """A fault of the input.

    Attributes
    ----------
    message : str
        What is wrong and what would be right.
    key : str
        Dotted scheme key that caused it; '' where none is known.
    file : str
        '' where none is known.
    line : int or None
        Counted from 1, in the scheme as the draft would be saved.
    """

    message: str
    key: str = ""
    file: str = ""
    line: int | None = None

    @property
    def place(self) -> str:
        """'scheme.toml:48' or ''."""
        return self.file if self.line is None else f"{self.file}:{self.line}"


def fault_of(error: RacewrightError) -> Fault:
    """The fault that an error tells of."""
    if isinstance(error, InputError):
        return Fault(error.message, error.key or "", error.file or "", error.line)
    return Fault(str(error))
