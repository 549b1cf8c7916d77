"""Water through the machine from the side: streamlines and bands of pressure, ready to draw."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np
from contourpy import FillType, contour_generator
from numpy.typing import NDArray

from racewright.flow.field import pressure
from racewright.flow.result import Axisymmetric, Streamlines

Floats = NDArray[np.float64]

ACROSS, UP = 150, 54
"""Points of the grid on which pressure is computed."""
BANDS = 15
"""Most bands of pressure."""


@dataclass(frozen=True)
class WaterLine:
    """A streamline [m]; `captured` where it passes the rotor."""

    x: Floats
    r: Floats
    captured: bool


@dataclass(frozen=True)
class PressureBand:
    """Where the pressure lies between two values.

    Attributes
    ----------
    low, high : float
        Static pressure less that of the undisturbed water at the same depth [Pa].
    tone : float
        -1 for the lowest to 1 for the highest that is drawn, 0 for none [-].
    path : str
        Outline as SVG path data; x downstream, radius up, in m.
    """

    low: float
    high: float
    tone: float
    path: str


@dataclass(frozen=True)
class WaterField:
    """Streamlines and pressure at one load.

    Attributes
    ----------
    lines : tuple of WaterLine
    bands : tuple of PressureBand
        From the lowest to the highest.
    head_coefficient : float
        Of the solved load that is shown: the one next to the design point's [-].
    """

    lines: tuple[WaterLine, ...]
    bands: tuple[PressureBand, ...]
    head_coefficient: float


UNITS = {
    "WaterLine": {"x": "m", "r": "m"},
    "PressureBand": {"low": "Pa", "high": "Pa", "tone": "-"},
    "WaterField": {"head_coefficient": "-"},
}


def field_of(flow: Axisymmetric, lines: Streamlines, load: float, dynamic: float) -> WaterField:
    """The water around a machine.

    Parameters
    ----------
    flow : Axisymmetric
        Lengths in m.
    lines : Streamlines
    load : float
        Head coefficient of the point; the nearest load that was solved is shown [-].
    dynamic : float
        Density times stream speed squared over 2 [Pa].
    """
    apart = np.where(flow.converged, np.abs(flow.head_coefficient - load), np.inf)
    index = int(np.argmin(apart))
    drawn = tuple(
        WaterLine(x[::2], r[::2], bool(c)) for x, r, c in zip(lines.x, lines.r, lines.captured, strict=True)
    )
    return WaterField(drawn, tuple(_bands(flow, index, dynamic)), float(flow.head_coefficient[index]))


def _bands(flow: Axisymmetric, index: int, dynamic: float) -> list[PressureBand]:
    outer = float(flow.duct_r.max())
    start = min(float(flow.duct_x.min()), float(flow.hub_x.min()) if flow.hub_x.size else 0.0)
    end = max(float(flow.duct_x.max()), float(flow.hub_x.max()) if flow.hub_x.size else 0.0)
    x = np.linspace(start - 2.2 * outer, end + 2.2 * outer, ACROSS)
    r = np.linspace(0.0, 1.9 * outer, UP)
    values = dynamic * pressure(flow, index, *np.meshgrid(x, r))
    levels = _levels(values[_wet(flow, x, r)], float(values.min()), float(values.max()))
    generator = contour_generator(x, r, values, fill_type=FillType.OuterOffset)
    most = max(-levels[1], levels[-2])
    found = []
    for low, high in pairwise(levels.tolist()):
        filled: Any = generator.filled(low, high)
        points, offsets = filled
        path = "".join(_path(p, o) for p, o in zip(points, offsets, strict=True))
        if path:
            shown = min(max(low, float(levels[1])), float(levels[-2])) + min(
                max(high, float(levels[1])), float(levels[-2])
            )
            found.append(PressureBand(low, high, float(np.clip(0.5 * shown / most, -1.0, 1.0)), path))
    return found


def _wet(flow: Axisymmetric, x: Floats, r: Floats) -> NDArray[np.bool_]:
    """Grid points that lie in water: neither between the duct's sides nor in the hub."""
    middle = int(np.argmin(flow.duct_x))
    inner = np.interp(x, flow.duct_x[middle::-1], flow.duct_r[middle::-1], left=np.inf, right=np.inf)
    outer = np.interp(x, flow.duct_x[middle:], flow.duct_r[middle:], left=-np.inf, right=-np.inf)
    dry = (r[:, None] >= inner) & (r[:, None] <= outer)
    if flow.hub_x.size:
        order = np.argsort(flow.hub_x)
        dry |= r[:, None] <= np.interp(x, flow.hub_x[order], flow.hub_r[order], left=-np.inf, right=-np.inf)
    return ~dry


def _levels(wet: Floats, least: float, most: float) -> Floats:
    """Round steps, the undisturbed pressure in the middle of one; the ends take in all beyond."""
    low, high = np.quantile(wet, (0.005, 0.995))
    rough = max(float(high - low), 1e-9) / (BANDS - 2)
    size = 10.0 ** np.floor(np.log10(rough))
    step = size * next(s for s in (1.0, 2.0, 5.0, 10.0) if s * size >= rough)
    first, last = np.floor(low / step) + 0.5, max(np.ceil(high / step) - 0.5, np.floor(low / step) + 1.5)
    inner = step * np.arange(first, last + 0.5)
    below, above = min(least, float(inner[0])) - step, max(most, float(inner[-1])) + step
    return np.concatenate([[below], inner, [above]])


def _path(points: Floats, offsets: NDArray[np.uint32]) -> str:
    rings = [points[a:b] for a, b in pairwise(offsets.tolist())]
    return "".join("M" + "L".join(f"{px:.3f} {pr:.3f}" for px, pr in ring) + "Z" for ring in rings)
