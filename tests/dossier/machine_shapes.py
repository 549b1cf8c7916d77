"""Outlines, rows and streamlines of the invented machine: plausible analytic stand-ins."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from racewright.flow.result import Streamlines
from racewright.machine.hub import Hub
from racewright.machine.row import Row
from racewright.stage.result import Triangles

Floats = NDArray[np.float64]

RT, RH, U, CH, SPEED_RATIO, TSR = 0.5, 0.15, 2.5, 0.62, 1.25, 2.0
LENGTH, BETA, THICK = 0.8, 1.5, 0.12
W = math.sqrt(1 - CH)


def duct_outline() -> tuple[Floats, Floats]:
    """x and r of the duct, m: from the trailing edge along the inside to the nose and back outside."""
    c = 0.5 * LENGTH * (1 - np.cos(np.linspace(0, np.pi, 61))) / LENGTH
    half = 5 * THICK * LENGTH * (0.2969 * np.sqrt(c) - 0.126 * c - 0.3516 * c**2 + 0.2843 * c**3 - 0.1036 * c**4)
    trailing = RT * math.sqrt(BETA)
    leading = trailing - LENGTH * math.sin(0.02)
    for _ in range(60):
        chord = leading + (trailing - leading) * c
        leading += RT - float(np.min(chord - half))
    chord = leading + (trailing - leading) * c
    x = LENGTH * c
    return np.concatenate([x[::-1], x[1:]]), np.concatenate([(chord - half)[::-1], (chord + half)[1:]])


def hub_outline(hub: Hub) -> tuple[Floats, Floats]:
    """x and r of the hub body, m."""
    t = np.linspace(0, np.pi / 2, 24)
    nose = (hub.nose_x + hub.nose_length * (1 - np.cos(t)), hub.radius * np.sin(t))
    begin = hub.nose_x + hub.nose_length + hub.cylinder_length
    tail = (begin + hub.tail_length * np.sin(t), hub.radius * np.cos(t))
    return np.concatenate([nose[0], tail[0]]), np.concatenate([nose[1], tail[1]])


def row(
    kind: str, place_x: float, count: int, chord: tuple[float, float], triangles: Triangles, clearance: float
) -> Row:
    """A row whose metal follows the triangles; `kind` is vanes or blades."""
    r = triangles.radius
    if kind == "vanes":
        stagger, camber = triangles.vane_exit_angle / 2, triangles.vane_exit_angle
    else:
        stagger = (triangles.relative_angle_in + triangles.relative_angle_out) / 2
        camber = triangles.relative_angle_out - triangles.relative_angle_in
    return Row(
        "vanes" if kind == "vanes" else "blades",
        count,
        place_x,
        r,
        np.interp(r, [RH, RT], chord),
        stagger,
        camber,
        np.full_like(r, 0.09),
        clearance,
    )


def streamlines(hub: Hub) -> Streamlines:
    """Five streamlines through the machine, four around it."""
    x = np.linspace(-2.6, 4.2, 160)
    up, down = math.sqrt(SPEED_RATIO), math.sqrt(SPEED_RATIO / W)
    blend_in, blend_out = 0.5 * (1 + np.tanh((x + 0.25) / 0.45)), 0.5 * (1 + np.tanh((x - 0.9) / 0.5))
    lines: list[tuple[Floats, bool]] = []
    for part in (0.15, 0.35, 0.55, 0.75, 0.93):
        area = part * (RT**2 - RH**2)
        inner = np.where((x > hub.nose_x) & (x < 1.5), RH, 0.0)
        inner = np.convolve(np.pad(inner, 12, mode="edge"), np.ones(25) / 25, mode="valid")
        factor = up**2 + (1 - up**2) * blend_in + (down**2 - 1) * blend_out
        lines.append((np.sqrt(area * factor + inner**2), True))
    for start in (0.66, 0.85, 1.05, 1.3):
        bump = 0.14 * np.exp(-(((x - 0.35) / 0.8) ** 2)) * (0.66 / start) ** 2
        lines.append((start + bump + 0.05 * blend_out * (0.66 / start), False))
    return Streamlines(
        tuple(x for _ in lines),
        tuple(r for r, _ in lines),
        tuple(np.ones_like(x) for _ in lines),
        tuple(c for _, c in lines),
    )
