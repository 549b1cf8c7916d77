"""The record: the same model at two or more blockages, taken to none."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.uncertainty.correlation import Correlation
from racewright.uncertainty.inputs import Input
from racewright.uncertainty.propagation import propagate
from racewright.uncertainty.type_b import rectangular

SAME_TIP_SPEED = 0.02
"""Largest relative difference of tip-speed ratio between readings of one record. Own choice."""
LEAST_SPAN = 0.2
"""Least span of B CT over its largest value; below it the line is not held. Own choice."""
BEND = 0.15
"""Share of the correction that a straight line may leave undone. Closed-channel theory of a disc of fixed resistance
leaves 0.01 to 0.15 for CT to 0.9 and B to 0.1 (checked in the suite)."""
BEND_LOAD = 0.9
STRAIGHT = 2.0
"""Normalised misfit from which a line through three or more points is said not to fit. Common practice."""


@dataclass(frozen=True)
class RecordReading:
    """The model at one blockage (one channel, depth or size of wall).

    Attributes
    ----------
    blockage : float
        B [-].
    power_coefficient, thrust_coefficient, tip_speed_ratio : float
        As measured there [-].
    power_uncertainty, thrust_uncertainty : float or None
        Standard uncertainties; None when nobody knows [-].
    """

    blockage: float
    power_coefficient: float
    thrust_coefficient: float
    tip_speed_ratio: float
    power_uncertainty: float | None
    thrust_uncertainty: float | None


@dataclass(frozen=True)
class UnboundedRecord:
    """CP and CT at no blockage, at the readings' tip-speed ratio.

    Attributes
    ----------
    power_coefficient, thrust_coefficient : float
        Where the lines over B CT meet 0 [-].
    power_uncertainty, thrust_uncertainty : float or None
        Standard uncertainties; None when a reading's is missing [-].
    tip_speed_ratio : float
        Mean of the readings' [-].
    power_slope, thrust_slope : float
        By B CT [-].
    blockages : tuple of float
        Of the readings [-].
    misfit : float or None
        Root mean square of CP from its line over its uncertainty, by degree of freedom; None for two readings,
        through which a line always passes [-].
    complete : bool
        False when an uncertainty is missing.
    remarks : tuple of Remark
    """

    power_coefficient: float
    thrust_coefficient: float
    power_uncertainty: float | None
    thrust_uncertainty: float | None
    tip_speed_ratio: float
    power_slope: float
    thrust_slope: float
    blockages: tuple[float, ...]
    misfit: float | None
    complete: bool
    remarks: tuple[Remark, ...]


def blockage_record(
    readings: Sequence[RecordReading], *, shared: float | tuple[float, float] = 0.0
) -> UnboundedRecord:
    """Take the same model at several blockages to none, by straight lines of CP and CT over B CT.

    That performance grows about in a straight line with B CT is from Kinsey and Dumas 2017, Renewable Energy 103,
    239-254 (from memory, low confidence). By theory the true curve bends: the line leaves 1 to 15 % of the correction
    of the least blocked reading undone, always on the same side. Up to 15 % (rectangular) are therefore counted as
    uncertainty. The readings' errors go through the fit to first order, those of CT also through the abscissa.

    Parameters
    ----------
    readings : sequence of RecordReading
        Two or more, at one tip-speed ratio within 2 % (interpolate to it first).
    shared : float or tuple of float
        Correlation of the errors of one quantity between readings, 0 to 1, of CP and CT apart where there are two:
        near 1 when one calibration serves all, which the line passes on rather than magnifies [-].

    Raises
    ------
    InputError
        Fewer than two, tip-speed ratios that differ, or loads times blockages too close to each other.
    """
    if len(readings) < 2:
        raise InputError("a record needs the same model at two blockages or more", key="record")
    speeds = np.array([one.tip_speed_ratio for one in readings])
    if np.ptp(speeds) > SAME_TIP_SPEED * speeds.mean():
        raise InputError(
            f"its tip-speed ratios run from {speeds.min():.4g} to {speeds.max():.4g}; bring them to one within "
            f"{100.0 * SAME_TIP_SPEED:g} % by interpolation along each run",
            key="record",
        )
    both = dict(zip(("CP", "CT"), shared if isinstance(shared, tuple) else (shared, shared), strict=True))
    if not all(0.0 <= one <= 1.0 for one in both.values()):
        raise InputError(f"the shared correlation is {shared}; it must lie between 0 and 1", key="shared")
    at = np.array([one.blockage * one.thrust_coefficient for one in readings])
    if np.ptp(at) < LEAST_SPAN * at.max():
        raise InputError(
            f"B CT runs only from {at.min():.4g} to {at.max():.4g}; the line needs a span of "
            f"{100.0 * LEAST_SPAN:g} % of the largest",
            key="record",
        )
    weights = _weights(readings)

    def lines(v: Mapping[str, Any]) -> dict[str, Any]:
        power = np.array([v[f"CP {i}"] for i in range(len(readings))])
        thrust = np.array([v[f"CT {i}"] for i in range(len(readings))])
        x = thrust * [one.blockage for one in readings]
        (p0, p1), (t0, t1) = _line(x, power, weights[0]), _line(x, thrust, weights[1])
        left = v["bend"] * float(x.min())
        return {"CP": p0 + left * p1, "CT": t0 + left * t1, "CP slope": p1, "CT slope": t1}

    inputs = [rectangular("bend", 0.0, BEND, source="closed-channel theory")]
    pairs = []
    for i, one in enumerate(readings):
        inputs.append(Input(f"CP {i}", one.power_coefficient, one.power_uncertainty))
        inputs.append(Input(f"CT {i}", one.thrust_coefficient, one.thrust_uncertainty))
        pairs += [Correlation(f"{name} {j}", f"{name} {i}", r) for j in range(i) for name, r in both.items() if r]
    found = propagate(lines, inputs, correlations=pairs, curvature=False)
    power, thrust = found["CP"], found["CT"]
    misfit, remarks = None, [*power.remarks, *thrust.remarks]
    if len(readings) > 2 and power.complete:
        offs = np.array([one.power_coefficient for one in readings]) - power.value - found["CP slope"].value * at
        misfit = float(np.sqrt(np.sum((offs * weights[0]) ** 2) / (len(readings) - 2)))
        if misfit > STRAIGHT:
            remarks.append(Remark("caution", f"CP is not straight over B CT: misfit {misfit:.1f}.", "record"))
    if max(one.thrust_coefficient for one in readings) > BEND_LOAD:
        remarks.append(
            Remark(
                "caution",
                f"A load is above {BEND_LOAD:g}: the line leaves over {100.0 * BEND:g} % of the correction.",
                "record",
            )
        )
    if len(readings) == 2:
        remarks.append(
            Remark("note", "Two blockages: the line is not tested by a third, and its curve is not known.", "record")
        )
    return UnboundedRecord(
        power.value,
        thrust.value,
        power.standard_uncertainty,
        thrust.standard_uncertainty,
        float(speeds.mean()),
        found["CP slope"].value,
        found["CT slope"].value,
        tuple(one.blockage for one in readings),
        misfit,
        power.complete and thrust.complete,
        tuple(remarks),
    )


def _weights(readings: Sequence[RecordReading]) -> tuple[Any, Any]:
    """1/u of CP and of CT; all alike where one is missing or nought."""
    found = []
    for values in ([one.power_uncertainty for one in readings], [one.thrust_uncertainty for one in readings]):
        found.append(1.0 / np.array(values) if all(values) else np.ones(len(readings)))
    return found[0], found[1]


def _line(x: Any, y: Any, weight: Any) -> tuple[float, float]:
    """Least squares: value at 0 and slope."""
    w = weight**2
    mean_x, mean_y = np.sum(w * x) / np.sum(w), np.sum(w * y) / np.sum(w)
    slope = np.sum(w * (x - mean_x) * (y - mean_y)) / np.sum(w * (x - mean_x) ** 2)
    return float(mean_y - slope * mean_x), float(slope)
