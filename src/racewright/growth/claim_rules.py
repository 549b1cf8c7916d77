"""What a claim must have, and what is said where it has not."""

from __future__ import annotations

from racewright.remark import Severity


def lacks_of(
    basis: str,
    *,
    has_band: bool,
    has_reason: bool,
    has_source: bool,
    tested: bool,
    tested_here: bool,
    has_next: bool,
) -> tuple[tuple[Severity, str], ...]:
    """What a claim lacks, each with its severity.

    Parameters
    ----------
    basis : str
        A name of `claims.Basis`.
    has_band, has_reason : bool
        A band; a reason for having none.
    has_source : bool
        A citation, a computation, or whose memory.
    tested, tested_here : bool
        By any test; by one of the step that it is claimed for.
    has_next : bool
        A next test.
    """
    found: list[tuple[Severity, str]] = []
    measured = basis == "measured by us"
    if measured and not tested:
        found.append(("warning", "Said to be measured by us, and no test is named: name it, or call it computed."))
    if measured and tested and not tested_here:
        found.append(
            (
                "warning",
                "Measured on another step than it is claimed for: carried over it is computed, so call it that.",
            )
        )
    if not has_band and not has_reason:
        found.append(("warning", "No band, and no reason for its lack."))
    elif not has_band:
        found.append(("note", "No band; the reason is stated."))
    if basis == "published" and not has_source:
        found.append(("warning", "Said to be published, and no source is cited."))
    if basis == "computed" and not has_source:
        found.append(("caution", "Computed, and it is not said by what."))
    if basis == "memory":
        found.append(("caution", "From memory: look it up or test it before it is shown to anyone who pays for it."))
    if basis == "computed" and not tested_here:
        found.append(("note", "Computed and not yet tested at this step."))
    if not has_next:
        found.append(("caution" if not tested_here else "note", "No next test is planned."))
    return tuple(found)
