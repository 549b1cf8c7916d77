"""What a claim must have, and what is said where it has not."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from racewright.remark import Severity

_YEAR = re.compile(r"\b(19|20|21)\d\d\b")


@dataclass(frozen=True, slots=True)
class Facts:
    """What is known of a claim.

    Attributes
    ----------
    basis : str
        A name of `claims.Basis`.
    figure, band, reason, source : bool
        A figure; a band; a reason for having none; a citation, a computation, or whose memory.
    last_test : str
        Empty where there was none.
    tested_here : bool
        On the step that it is claimed for.
    next_test : bool
    """

    basis: str
    figure: bool
    band: bool
    reason: bool
    source: bool
    last_test: str
    tested_here: bool
    next_test: bool

    @property
    def tested(self) -> bool:
        """By any test."""
        return bool(self.last_test.strip())


RULES: tuple[tuple[Callable[[Facts], bool], Severity, str], ...] = (
    (lambda f: not f.figure, "warning", "No figure yet: state one, or name one that is computed."),
    (
        lambda f: f.basis == "measured by us" and not f.tested,
        "warning",
        "Said to be measured by us, and no test is named: name it, or call it computed.",
    ),
    (
        lambda f: f.basis == "measured by us" and f.tested and not f.tested_here,
        "warning",
        "Measured on another step than it is claimed for: carried over it is computed, so call it that.",
    ),
    (lambda f: f.figure and not f.band and not f.reason, "warning", "No band, and no reason for its lack."),
    (lambda f: f.figure and not f.band and f.reason, "note", "No band; the reason is stated."),
    (
        lambda f: f.basis == "published" and not f.source,
        "warning",
        "Said to be published, and no source is cited.",
    ),
    (lambda f: f.basis == "computed" and not f.source, "caution", "Computed, and it is not said by what."),
    (
        lambda f: f.basis == "memory",
        "caution",
        "From memory: look it up or test it before it is shown to anyone who pays for it.",
    ),
    (
        lambda f: f.basis != "measured by us" and not f.tested_here,
        "note",
        "Not yet tested by us on what it is claimed for.",
    ),
    (lambda f: f.tested and not _YEAR.search(f.last_test), "note", "The last test has no date."),
    (lambda f: not f.next_test and not f.tested_here, "caution", "No test of it was made and none is planned."),
    (lambda f: not f.next_test and f.tested_here, "note", "No next test is planned."),
)
"""When each is said, how grave it is, and what is said."""


def lacks_of(facts: Facts) -> tuple[tuple[Severity, str], ...]:
    """What a claim lacks, in the order of `RULES`."""
    return tuple((severity, text) for when, severity, text in RULES if when(facts))
