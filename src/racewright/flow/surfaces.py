"""The wetted surfaces as panels, and their own influence, computed once for every load."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.flow.influence import PSI, Influence
from racewright.flow.kernels import CONSTANT, FALLING, RISING, TARGET_RATES, VALUES, panel_sums

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Surfaces:
    """Duct (constant strength on each panel) and hub (strength linear between nodes, zero on the axis).

    Linear strength at the hub is what makes its ends right: near the axis strength grows as r, and the kernel
    reaches no further than r, so that constant panels stay 6 to 35 % wrong there at any number of panels.

    Attributes
    ----------
    x, r : ndarray, shape (n,)
        Where psi is set: mid-points of the duct's panels, then the hub's inner nodes [length].
    duct_panels, wall_panels : int
        How many of the n unknowns belong to the duct (the first), and to a channel's wall (the last).
    ends : ndarray, shape (e, 4)
        x1, r1, x2, r2 of the elements; a hub node owns two, rising to it and falling from it [length].
    shapes : ndarray of int, shape (e,)
        How the strength goes along each element.
    """

    x: Floats
    r: Floats
    duct_panels: int
    ends: Floats
    shapes: NDArray[np.int64]
    wall_panels: int = 0

    def influence(self, x: Floats, r: Floats) -> Influence:
        """Kernel rows at the targets from unit unknowns: values and rates by the target's radius."""
        return Influence(self._rows(x, r, TARGET_RATES), r[:, None])

    def own(self) -> Floats:
        """psi at the surfaces' own targets from unit unknowns, shape (n, n)."""
        return np.asarray(self._rows(self.x, self.r, VALUES)[PSI])

    def _rows(self, x: Floats, r: Floats, rows: int) -> Floats:
        """Each hub panel is summed once: it rises to the node behind it and falls from the one ahead."""
        d, h = self.duct_panels, len(self.ends) - self.wall_panels
        hub = np.concatenate([self.ends[d:h:2], self.ends[h - 1 : h]]) if h > d else self.ends[:0]
        plain, rising = panel_sums(x, r, np.concatenate([self.ends[:d], hub, self.ends[h:]]), rows)
        e = d + len(hub)
        rise, fall = rising[:, :, d:e], plain[:, :, d:e] - rising[:, :, d:e]
        nodes = rise[:, :, :-1] + fall[:, :, 1:]
        return np.concatenate([plain[:, :, :d], nodes, plain[:, :, e:]], axis=2)

    def element_strength(self, unknown: Floats) -> Floats:
        """Strength of each element from the n unknowns."""
        d, h = self.duct_panels, self.x.size - self.wall_panels
        return np.concatenate([unknown[:d], np.repeat(unknown[d:h], 2), unknown[h:]])


NONE = np.empty(0)


def surfaces(
    duct_x: Floats, duct_r: Floats, hub_x: Floats, hub_r: Floats, wall_x: Floats = NONE, wall_radius: float = 0.0
) -> Surfaces:
    """Panel the contours, whose points stand on the walls; any may be empty.

    `wall_x` are the points of a channel's wall along the stream, `wall_radius` its radius; constant strength.
    """
    wall = _ends(wall_x, np.full(wall_x.shape, wall_radius))
    duct, hub = _ends(*area_true(duct_x, duct_r)), _ends(hub_x, hub_r)
    hub_elements = np.empty((max(2 * len(hub) - 2, 0), 4))
    hub_elements[0::2], hub_elements[1::2] = hub[:-1], hub[1:]
    shapes = np.concatenate([np.full(len(duct), CONSTANT), np.tile([RISING, FALLING], max(len(hub) - 1, 0))])
    shapes = np.concatenate([shapes, np.full(len(wall), CONSTANT)])
    return Surfaces(
        x=np.concatenate([0.5 * (duct[:, 0] + duct[:, 2]), hub_x[1:-1], 0.5 * (wall[:, 0] + wall[:, 2])]),
        r=np.concatenate([0.5 * (duct[:, 1] + duct[:, 3]), hub_r[1:-1], wall[:, 1]]),
        duct_panels=len(duct),
        ends=np.concatenate([duct, hub_elements, wall]),
        shapes=shapes.astype(np.int64),
        wall_panels=len(wall),
    )


def area_true(x: Floats, r: Floats) -> tuple[Floats, Floats]:
    """Panel ends moved off a smooth wall so that the panels between them enclose the area that the wall does.

    A chord cuts off an arc of height h^2/8R; moving both of its ends out by h^2/12R gives the cut-off area back.
    Panels whose ends stand on the wall make a nose too sharp: its speed comes out 0.7 % low where a panel turns
    by 11 degrees, and with it the force. The first and last point (the trailing edge) stay.
    """
    if x.size < 3:
        return x, r
    length = np.hypot(np.diff(x), np.diff(r))
    before, after = length[:-1], length[1:]
    moved = []
    for values in (x, r):
        chord = (after * values[:-2] + before * values[2:]) / (before + after)
        moved.append(np.concatenate([values[:1], values[1:-1] + (values[1:-1] - chord) / 6.0, values[-1:]]))
    return moved[0], moved[1]


def _ends(x: Floats, r: Floats) -> Floats:
    if x.size == 0:
        return np.empty((0, 4))
    return np.column_stack([x[:-1], r[:-1], x[1:], r[1:]])
