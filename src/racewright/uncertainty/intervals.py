"""Coverage intervals from sorted draws."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def symmetric(ordered: Floats, level: float) -> tuple[float, float]:
    """Probabilistically symmetric interval: as many draws below as above (JCGM 101 7.7.2)."""
    inside = _inside(ordered.size, level)
    start = (ordered.size - inside) // 2
    return float(ordered[start]), float(ordered[start + inside])


def shortest(ordered: Floats, level: float) -> tuple[float, float]:
    """Shortest interval that holds the share `level` of the draws (JCGM 101 7.7.3)."""
    inside = _inside(ordered.size, level)
    start = int(np.argmin(ordered[inside:] - ordered[:-inside]))
    return float(ordered[start]), float(ordered[start + inside])


def _inside(count: int, level: float) -> int:
    return min(max(int(level * count + 0.5), 1), count - 1)
