"""The machine's meridional section, to scale, on given axes."""

from __future__ import annotations

from typing import Protocol

import numpy as np
from matplotlib.axes import Axes
from matplotlib.patches import Polygon

from racewright.dossier.figures.house import ACCENT, BODY, INK, RULE, SECOND, SOFT
from racewright.flow.result import Axisymmetric
from racewright.machine.row import Row
from racewright.machine.unit import Unit


class Sectioned(Protocol):
    """What a section is drawn of: the findings of a machine, or a step of growth."""

    @property
    def unit(self) -> Unit: ...

    @property
    def flow(self) -> Axisymmetric: ...

    @property
    def vanes(self) -> Row: ...

    @property
    def blades(self) -> Row: ...


def outer_radius(machine: Sectioned) -> float:
    """Largest radius of the duct [m]."""
    return float(np.max(machine.flow.duct_r))


def extent(machine: Sectioned) -> tuple[float, float]:
    """Axial extent of duct and hub [m]."""
    x = np.concatenate([machine.flow.duct_x, machine.flow.hub_x])
    return float(np.min(x)), float(np.max(x))


def row_outline(row: Row, roots: float, tips: float) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """Side view of a row as (x, r) corners: chord times cos(stagger) about the mid-chord, from hub to tip.

    Parameters
    ----------
    row : Row
    roots, tips : float
        Radii to draw between [m]; sections outside the row's own radii keep its end values.
    """
    radius = np.linspace(roots, tips, 24)
    half = 0.5 * np.interp(radius, row.radius, row.chord * np.cos(row.stagger))
    lead = np.column_stack([row.place_x - half, radius])
    trail = np.column_stack([row.place_x + half, radius])
    return np.vstack([lead, trail[::-1]])


def draw_section(axes: Axes, machine: Sectioned, axis_y: float = 0.0, shift: float = 0.0) -> None:
    """Both halves of the duct, the hub, the vanes (hatched) and the rotor (solid).

    Parameters
    ----------
    axes : Axes
        With equal scales on both axes.
    machine : Sectioned
    axis_y : float
        Where the machine's axis lies on the axes [m].
    shift : float
        How far downstream of its own place it is drawn [m].
    """
    flow = machine.flow
    hub = float(np.max(flow.hub_r)) if flow.hub_r.size else 0.0
    throat = machine.unit.duct.throat_radius
    for side in (1.0, -1.0):
        for row, face, edge, hatch in (
            (machine.vanes, RULE, SOFT, "////"),
            (machine.blades, SECOND, SECOND, None),
        ):
            corners = row_outline(row, min(hub, float(row.radius[0])), throat - row.clearance)
            axes.add_patch(
                Polygon(
                    np.column_stack([corners[:, 0] + shift, axis_y + side * corners[:, 1]]),
                    facecolor=face,
                    edgecolor=edge,
                    hatch=hatch,
                    linewidth=0.6,
                    zorder=4,
                )
            )
        axes.add_patch(
            Polygon(
                np.column_stack([flow.duct_x + shift, axis_y + side * flow.duct_r]),
                facecolor=ACCENT,
                edgecolor=ACCENT,
                linewidth=0.6,
                zorder=5,
            )
        )
    if flow.hub_x.size:
        shape = np.concatenate(
            [
                np.column_stack([flow.hub_x + shift, axis_y + flow.hub_r]),
                np.column_stack([flow.hub_x + shift, axis_y - flow.hub_r])[::-1],
            ]
        )
        axes.add_patch(Polygon(shape, facecolor=BODY, edgecolor=BODY, linewidth=0.6, zorder=5))
    start, end = (place + shift for place in extent(machine))
    reach = 0.12 * (end - start)
    axes.plot(
        [start - reach, end + reach],
        [axis_y, axis_y],
        color=INK,
        linewidth=0.5,
        dashes=(10, 3, 2, 3),
        zorder=6,
    )
