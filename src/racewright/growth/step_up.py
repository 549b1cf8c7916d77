"""Efficiency carried to a like machine at another Reynolds number: the formula of hydraulic machines."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.door import within
from racewright.remark import Remark

REFERENCE_REYNOLDS = 7e6
"""Reynolds number of the formula's reference (IEC 60193:1999, from memory, high confidence) [-]."""
SCALABLE_SHARE = 0.7
"""Share of the losses at the reference that fall with Reynolds number, fixed blades; 0.8 for blades that are adjusted
(IEC 60193:1999, from memory, medium confidence) [-]."""
EXPONENT = 0.16
"""Of losses over Reynolds number (IEC 60193:1999, from memory, high confidence) [-]."""
LEAST_REYNOLDS = 1e6
"""Below this the formula is used outside what models of hydraulic machines are tested at. Own choice [-]."""

SOURCE = "IEC 60193:1999, form from memory"


@dataclass(frozen=True, slots=True)
class StepUp:
    """What another Reynolds number does to the efficiency of a like machine.

    Attributes
    ----------
    hydraulic_efficiency : float
        At the other Reynolds number, below 1 [-].
    gain : float
        That less the efficiency given; below 0 for a step down [-].
    scalable_loss : float
        Loss at the reference Reynolds number that falls with Reynolds number [-].
    source : str
    remarks : tuple of Remark
        What the reader must know of the formula's reach.
    """

    hydraulic_efficiency: float
    gain: float
    scalable_loss: float
    source: str
    remarks: tuple[Remark, ...]


def step_up(
    hydraulic_efficiency: float,
    reynolds: float,
    other_reynolds: float,
    *,
    scalable_share: float = SCALABLE_SHARE,
    reference_reynolds: float = REFERENCE_REYNOLDS,
) -> StepUp:
    """Hydraulic efficiency of a like machine at another Reynolds number.

        d = (1 - eta)/[(Re_ref/Re)^0.16 + (1 - V)/V],  gain = d [(Re_ref/Re)^0.16 - (Re_ref/Re')^0.16]

    It holds for the efficiency inside the stage, shaft power over rho dh Q, never for a power coefficient; for like
    shapes at like flow angles, with gaps and roughness in proportion. Equal Reynolds numbers give no gain, and the
    efficiency stays below 1 - d (1 - V)/V.

    Parameters
    ----------
    hydraulic_efficiency : float
        Of the machine that is known, 0.05 to below 1 [-].
    reynolds, other_reynolds : float
        Throat diameter x tip speed over kinematic viscosity, of the machine that is known and of the other, 1e3 to
        1e10 [-].
    scalable_share : float
        V, 0.01 to 1; see `SCALABLE_SHARE` [-].
    reference_reynolds : float
        1e5 to 1e9; see `REFERENCE_REYNOLDS` [-].

    Raises
    ------
    InputError
        A value is not finite or outside its range.

    References
    ----------
    IEC 60193:1999, hydraulic turbines, model acceptance tests: efficiency step-up. From memory: the form with high,
    V with medium confidence. Its scope, read: machines above 5 MW or 3 m in diameter.

    Examples
    --------
    >>> round(step_up(0.90, 4e6, 4e7).hydraulic_efficiency, 7)
    0.9221407
    >>> step_up(0.90, 4e6, 4e6).gain
    0.0
    """
    known = within("hydraulic_efficiency", hydraulic_efficiency, 0.05, 1.0 - 1e-9, "", 0.88)
    first = within("reynolds", reynolds, 1e3, 1e10, "", 2e6)
    second = within("other_reynolds", other_reynolds, 1e3, 1e10, "", 4e7)
    share = within("scalable_share", scalable_share, 0.01, 1.0, "", SCALABLE_SHARE)
    reference = within("reference_reynolds", reference_reynolds, 1e5, 1e9, "", REFERENCE_REYNOLDS)
    here, there = (math.pow(reference / one, EXPONENT) for one in (first, second))
    scalable = (1.0 - known) / (here + (1.0 - share) / share)
    gain = scalable * (here - there)
    return StepUp(known + gain, gain, scalable, SOURCE, _remarks(first, second))


def _remarks(first: float, second: float) -> tuple[Remark, ...]:
    low = min(first, second)
    if low >= LEAST_REYNOLDS:
        return ()
    text = (
        f"The step-up of hydraulic machines is used at a Reynolds number of {low:.2g} on diameter and tip speed; its "
        f"models are tested above about {LEAST_REYNOLDS:.0g}. Take it for a check of the order, no more."
    )
    return (Remark("caution", text, "step-up"),)
