"""Several machines in one reach: energy by count, and what part of the river they take."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.supply.door import not_negative, positive
from racewright.uncertainty import Band

Floats = NDArray[np.float64]

BLOCKAGE_CAUTION, BLOCKAGE_WARNING = 0.05, 0.10
"""Capture area over wetted area from which the machines feel each other and the river feels them (common practice, no
source) [-]."""

DIVERSION_CAUTION = 0.10
"""Share of the river through the machines from which the way past them wants a look (rule of this program) [-]."""

WAKE_DIAMETERS = 15.0
"""Diameters downstream where a river wake had recovered to 97.5 % (Tanana River; Edgerly 2016, abstract) [-]."""


@dataclass(frozen=True)
class RiverShare:
    """Machines beside their river.

    Attributes
    ----------
    count : int
    energy : Band
        Of all machines, each as if alone: no gain from blockage, no loss in wakes [J].
    blockage : ndarray, shape (n,)
        Capture areas together over wetted area, at each standing [-].
    diversion : ndarray, shape (n,)
        Flow through all rotors over the river's discharge, at each standing [-].
    remarks : tuple of Remark
    """

    count: int
    energy: Band
    blockage: Floats
    diversion: Floats
    remarks: tuple[Remark, ...]


def river_share(
    energy: Band,
    count: int,
    capture_area: float,
    wetted_area: ArrayLike,
    discharge: ArrayLike,
    flow_rate: ArrayLike,
    *,
    labels: tuple[str, ...],
    diameter: float | None = None,
    spacing: float | None = None,
) -> RiverShare:
    """Energy of several machines in one transect, and what part of the river they block and take in.

    Parameters
    ----------
    energy : Band
        Of one machine in a year [J].
    count : int
        Machines, 1 to 1000.
    capture_area : float
        Largest cross-section of one machine's duct, > 0 [m2].
    wetted_area, discharge, flow_rate : array_like, shape (n,)
        Of the transect [m2], of the river [m3/s], through one rotor [m3/s], at each standing.
    labels : tuple of str
        Of the standings, for the remarks.
    diameter, spacing : float, optional
        Outer diameter and least distance between machines one behind the other [m]; without both no word is said
        on wakes.

    Raises
    ------
    InputError
        Counts or numbers outside their range, unequal lengths, machines that block or take in more than the river
        has.
    """
    if not 1 <= count <= 1000:
        raise InputError(f"the number of machines is {count}; wanted 1 to 1000")
    positive("capture area", capture_area, "m2", 1.0)
    area, river, through = (np.asarray(v, dtype=np.float64) for v in (wetted_area, discharge, flow_rate))
    if not (area.ndim == 1 and area.shape == river.shape == through.shape == (len(labels),)):
        raise InputError("wetted area, discharge, flow rate and labels want one value for each standing")
    if not (np.isfinite(area) & (area > 0) & np.isfinite(river) & (river > 0) & np.isfinite(through)).all():
        raise InputError("wetted area and discharge must be finite and above 0 at every standing")
    if (through < 0.0).any():
        raise InputError("the flow rate through a rotor must be 0 m3/s or more")
    blockage, diversion = count * capture_area / area, count * through / river
    for name, part in (("block", blockage), ("take in", diversion)):
        worst = int(np.argmax(part))
        if part[worst] >= 1.0:
            raise InputError(f"{count} machines {name} {100 * part[worst]:.0f} % of the river at {labels[worst]}")
    basis = f"{count} x one machine alone; {energy.basis}"
    return RiverShare(
        count=count,
        energy=Band(count * energy.low, count * energy.value, count * energy.high, basis),
        blockage=blockage,
        diversion=diversion,
        remarks=tuple(_remarks(count, blockage, diversion, labels, diameter, spacing)),
    )


def _remarks(
    count: int,
    blockage: Floats,
    diversion: Floats,
    labels: tuple[str, ...],
    diameter: float | None,
    spacing: float | None,
) -> list[Remark]:
    told = []
    worst = int(np.argmax(blockage))
    if blockage[worst] > BLOCKAGE_CAUTION:
        text = (
            f"The machines block {100 * blockage[worst]:.0f} % of the transect at {labels[worst]}: power as if alone "
            f"in a wide river no longer holds above about {100 * BLOCKAGE_CAUTION:.0f} %, and the level upstream "
            "rises (common practice, no source)."
        )
        told.append(Remark("warning" if blockage[worst] > BLOCKAGE_WARNING else "caution", text, "blockage"))
    most = int(np.argmax(diversion))
    if diversion[most] > DIVERSION_CAUTION:
        text = (
            f"{100 * diversion[most]:.0f} % of the river passes the rotors at {labels[most]}: fish and debris have "
            "little way round; local rules on passage apply."
        )
        told.append(Remark("caution", text, "diversion"))
    if count > 1 and diameter is not None and spacing is not None:
        apart = not_negative("spacing", spacing, "m", 20.0) / positive("diameter", diameter, "m", 1.2)
        if apart < WAKE_DIAMETERS:
            text = (
                f"Machines one behind the other stand {apart:.1f} diameters apart; a river wake wanted about "
                f"{WAKE_DIAMETERS:.0f} to recover (one river, Edgerly 2016): those behind give less; not counted."
            )
            told.append(Remark("warning", text, "wakes"))
    elif count > 1:
        text = f"Energy of {count} machines is {count} times one: none stands in another's wake (assumed)."
        told.append(Remark("caution", text, "wakes"))
    return told
