"""A number that people's safety may hang on, with what must stand beside it."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.safety import SafetyBasis

SCREENING = (
    "A screening figure, not a design value: a competent engineer, local codes and the owners of bridges, weirs and "
    "banks below decide."
)
FIRST = (
    "Force at the place struck, for milliseconds. Lines do not soften it: a softer tether changes it by less than a "
    f"hundredth. {SCREENING}"
)
SLOW = (
    "Tension in the line, seconds after the blow. It is not the force at the place struck, which is many times "
    f"higher. A parting line flies back: keep people out of its whole reach. {SCREENING}"
)
AFTER = (
    "Where a log goes hangs on friction, shape and turbulence that nobody knows beforehand: plan for one that stays. "
    f"{SCREENING}"
)
STRUCK_LINE = (
    "A line that a log drives into may part and fly back: keep people out of its whole reach. Ends that give way and "
    f"a line that is worn are not in it. {SCREENING}"
)
HELD = (
    "Debris held on lines or machine can grow within hours and part them; nobody goes near it in the current, and "
    f"cutting it free releases stored energy. {SCREENING}"
)


@dataclass(frozen=True, slots=True)
class SafetyFigure:
    """One number with its range, caution, basis and edition.

    Attributes
    ----------
    name : str
        What it is, e.g. 'first-blow force' or 'slow line tension'.
    unit : str
        SI unit.
    low, high : float
        Range [unit].
    value : float or None
        Middle value; None where only the range may be shown [unit].
    safety : SafetyBasis
        Formula or source; its edition; how it is known; what the reader must be told.
    """

    name: str
    unit: str
    low: float
    value: float | None
    high: float
    safety: SafetyBasis
