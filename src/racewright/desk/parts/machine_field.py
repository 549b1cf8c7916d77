"""Water through the machine from the side: streamlines and bands of pressure, ready to draw."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from contourpy import FillType, contour_generator
from numpy.typing import NDArray

from racewright.flow.field import pressure
from racewright.flow.result import Axisymmetric, Streamlines

Floats = NDArray[np.float64]

ACROSS, UP = 110, 40
"""Points of the grid on which pressure is computed."""
BANDS = 9
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
    levels = _levels(values)
    generator = contour_generator(x, r, values, fill_type=FillType.OuterOffset)
    found = []
    for low, high in pairwise(levels.tolist()):
        points, offsets = generator.filled(low, high)
        path = "".join(_path(p, o) for p, o in zip(points, offsets, strict=True))
        middle = 0.5 * (low + high)
        if path:
            whole = abs(levels[1]) if middle < 0.0 else abs(levels[-2])
            tone = float(np.clip(middle / max(whole, high - low, 1.0), -1.0, 1.0)) if np.isfinite(middle) else 0.0
            found.append(PressureBand(float(low), float(high), tone, path))
    return found


def _levels(values: Floats) -> Floats:
    """Round steps between the 2nd and the 99th hundredth, the ends thrown wide."""
    low, high = np.quantile(values, (0.02, 0.99))
    rough = (high - low) / (BANDS - 2)
    size = 10.0 ** np.floor(np.log10(max(rough, 1e-9)))
    step = size * next(s for s in (1.0, 2.0, 2.5, 5.0, 10.0) if s * size >= rough)
    inner = step * np.arange(np.ceil(low / step), np.floor(high / step) + 1)
    below, above = min(values.min(), inner[0]) - step, max(values.max(), inner[-1]) + step
    return np.concatenate([[below], inner, [above]])


def _path(points: Floats, offsets: NDArray[np.uint32]) -> str:
    rings = [points[a:b] for a, b in pairwise(offsets.tolist())]
    return "".join("M" + "L".join(f"{px:.3f} {pr:.3f}" for px, pr in ring) + "Z" for ring in rings)
