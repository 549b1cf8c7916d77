"""Discharge through a transect from soundings, by mid-section and by mean-section."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from racewright.errors import InputError
from racewright.place.discharge_uncertainty import GaugingErrors, relative_uncertainty
from racewright.place.guard import within
from racewright.place.result import Floats
from racewright.place.soundings import Vertical, in_order
from racewright.remark import Remark

LARGEST_SHARE = 0.10
"""No vertical should carry more than this part of the discharge (common practice, from memory) [-]."""

LARGEST_STEP = 0.20
"""Mean speeds of neighbours should differ by less than this part.

US Bureau of Reclamation, Water Measurement Manual, chapter 10 section 15 [-].
"""

WALL_FACTOR = 0.65
"""Speed at a smooth upright wall over the mean speed beside it (Rantz and others 1982, from memory) [-]."""


@dataclass(frozen=True)
class Discharge:
    """Discharge through a transect.

    Attributes
    ----------
    mid_section : float
        Each vertical's mean speed and depth over half the gap to each neighbour (ISO 748) [m3/s].
    mean_section : float
        Mean depth times mean speed of two neighbours over the gap between them [m3/s].
    area : float
        Of the mid-section panels [m2].
    mean_speed : float
        Mid-section discharge over that area [m/s].
    panel : ndarray, shape (n,)
        Mid-section discharge of each vertical, edges included [m3/s].
    share : ndarray, shape (n,)
        The same over the whole [-].
    relative_standard : float
        Standard uncertainty of the mid-section discharge over its value [-].
    low, high : float
        Mid-section discharge less and plus two standard uncertainties, about 95 % [m3/s].
    remarks : tuple of Remark
    """

    mid_section: float
    mean_section: float
    area: float
    mean_speed: float
    panel: Floats
    share: Floats
    relative_standard: float
    low: float
    high: float
    remarks: tuple[Remark, ...]


def discharge(
    verticals: tuple[Vertical, ...], *, edge_factor: float = 0.0, errors: GaugingErrors | None = None
) -> Discharge:
    """Discharge from verticals between the two edges of the water.

    Parameters
    ----------
    verticals : tuple of Vertical
        From one edge of the water to the other, both edges included (depth 0 at a sloping bank).
    edge_factor : float
        Speed at an edge that has depth but no measured speed, over its neighbour's mean speed; 0 to 1, default 0
        (still water, low side); `WALL_FACTOR` for a smooth upright wall [-].
    errors : GaugingErrors, optional
        Standard errors behind the uncertainty; default those of `GaugingErrors()`.

    Raises
    ------
    InputError
        Fewer than three verticals, not in order, a wet vertical without speed, no water, or a discharge that
        is not above zero.
    """
    in_order(verticals)
    within("the edge factor", edge_factor, 0.0, 1.0, "[-]")
    x, depth, speed = (
        np.array(v) for v in zip(*((v.distance, v.depth, v.mean_speed) for v in verticals), strict=True)
    )
    walls = [e for e in (0, -1) if verticals[e].depth > 0.0 and not verticals[e].speeds]
    for edge in walls:
        speed[edge] = edge_factor * speed[1 if edge == 0 else -2]
    gap = np.diff(x)
    width = 0.5 * (np.append(gap, 0.0) + np.append(0.0, gap))
    panel: Floats = speed * depth * width
    whole = float(panel.sum())
    between = 0.25 * gap * (depth[1:] + depth[:-1]) * (speed[1:] + speed[:-1])
    if not whole > 0.0:
        raise InputError(
            f"the discharge comes out as {whole:.3g} m3/s; wanted above 0: check the direction of speeds"
        )
    used = np.array([len(v.speeds) for v in verticals])
    relative = relative_uncertainty(panel, used, errors or GaugingErrors())
    area = float(depth @ width)
    return Discharge(
        mid_section=whole,
        mean_section=float(between.sum()),
        area=area,
        mean_speed=whole / area,
        panel=panel,
        share=panel / whole,
        relative_standard=relative,
        low=whole * max(0.0, 1.0 - 2.0 * relative),
        high=whole * (1.0 + 2.0 * relative),
        remarks=tuple(_remarks(panel / whole, speed, depth, walls, edge_factor, whole, float(between.sum()))),
    )


def _remarks(
    share: Floats, speed: Floats, depth: Floats, walls: list[int], factor: float, mid: float, mean: float
) -> list[Remark]:
    found = []
    large = np.flatnonzero(share > LARGEST_SHARE)
    if large.size:
        text = (
            f"{large.size} of {share.size} verticals carry more than {100 * LARGEST_SHARE:.0f} % of the discharge "
            f"(most {100 * share.max():.0f} %, vertical {int(np.argmax(share)) + 1}): set more verticals there."
        )
        found.append(Remark("caution", text, "verticals"))
    wet = np.flatnonzero(depth > 0.0)
    pair = np.flatnonzero(np.diff(wet) == 1)
    one, other = speed[wet[pair]], speed[wet[pair] + 1]
    top = np.maximum(np.abs(one), np.abs(other))
    steps = int(np.count_nonzero(np.abs(one - other) > LARGEST_STEP * np.where(top > 0.0, top, 1.0)))
    if steps:
        text = (
            f"Mean speeds of {steps} pairs of neighbours differ by more than {100 * LARGEST_STEP:.0f} %: "
            "verticals stand too far apart there."
        )
        found.append(Remark("note", text, "verticals"))
    if abs(mean / mid - 1.0) > 0.03:
        text = (
            f"Mid-section gives {mid:.4g} m3/s, mean-section {mean:.4g} m3/s, {100 * (mean / mid - 1.0):+.1f} %: "
            "the rules agree only with verticals close together."
        )
        found.append(Remark("caution", text, "rule"))
    if walls:
        text = f"The speed at {len(walls)} upright edge(s) was taken as {factor:g} of that beside it, not measured."
        found.append(Remark("note", text, "edges"))
    if (speed < 0.0).any():
        found.append(Remark("caution", "Some water runs upstream; it was counted as negative.", "direction"))
    return found
