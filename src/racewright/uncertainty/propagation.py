"""From uncertain inputs to uncertain results: the GUM's first order, and Monte Carlo beside it."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.uncertainty.correlation import Correlation, blocks, correlation_matrix, factor
from racewright.uncertainty.coverage import check_level, coverage_factor, effective_dof
from racewright.uncertainty.draws import Draws
from racewright.uncertainty.inputs import Input
from racewright.uncertainty.model import Model, VectorModel
from racewright.uncertainty.monte_carlo import MonteCarlo, monte_carlo
from racewright.uncertainty.result import BudgetLine, Output, OutputCorrelation, Propagation
from racewright.uncertainty.second_order import SecondOrder, second_order
from racewright.uncertainty.sensitivity import Derivatives, central, complex_step, given, moved_by

Floats = NDArray[np.float64]

CAP = 1_000_000
"""Most draws; a million settles two digits of most distributions (JCGM 101 7.2.2)."""


def propagate(
    model: Model,
    inputs: Sequence[Input],
    *,
    correlations: Sequence[Correlation] = (),
    level: float = 0.95,
    derivatives: Derivatives = "central",
    sensitivities: Mapping[str, Mapping[str, float]] | None = None,
    curvature: bool = True,
    draws: bool = False,
    seed: int | None = None,
    digits: int = 2,
    cap: int = CAP,
    elementwise: bool = True,
    tick: Callable[[float], None] = lambda _: None,
) -> Propagation:
    """Uncertainty of every output of a model (JCGM 100:2008; with `draws` also JCGM 101:2008).

    Parameters
    ----------
    model : callable
        Takes a mapping of every input's name to its number and returns a mapping of output names to numbers;
        for Monte Carlo arrays for arrays, element by element. Pure.
    inputs : sequence of Input
    correlations : sequence of Correlation
        Of inputs; pairs that are not named are independent.
    level : float
        Coverage probability of expanded uncertainties and intervals; 0.95 by custom (common practice) [-].
    derivatives : {'central', 'complex'}
        How sensitivities are found: fourth-order differences, which suit any smooth model, or complex steps,
        exact, for models of analytic functions only.
    sensitivities : mapping, optional
        Known derivatives, sensitivities[output][input], instead; what is absent is 0.
    curvature : bool
        Whether to work out terms of second order; about 2 n^2 calls of the model for n inputs.
    draws : bool
        Whether to run Monte Carlo; needs a seed.
    seed : int, optional
        Of the draws, 0 or more.
    digits : int
        Significant digits of the uncertainty that Monte Carlo must settle, 1 or 2 (JCGM 101 7.9.2).
    cap : int
        Most draws, 1000 or more; a result that has not settled by then says so [-].
    elementwise : bool
        False for a model that takes numbers only: it is called draw by draw.
    tick : callable
        Called with the fraction of the cap that is drawn; may raise Cancelled.

    Returns
    -------
    Propagation
        An output that depends on an input without uncertainty is marked incomplete and names it.

    Raises
    ------
    InputError
        Names given twice, contradicting correlations, a missing seed, shapes that cannot be drawn together.
    NoAnswerError
        The model gives no finite number near the estimates or at a draw.
    """
    names = tuple(one.name for one in inputs)
    if not names or len(set(names)) < len(names):
        raise InputError(f"inputs need different names, at least one; they are: {', '.join(names)}", key="inputs")
    check_level(level)
    if draws and (seed is None or seed < 0):
        raise InputError("Monte Carlo needs a seed, a whole number of 0 or more; try seed=1", key="seed")
    if digits not in (1, 2) or cap < 1000:
        raise InputError(f"digits must be 1 or 2 and cap 1000 or more; they are {digits} and {cap}", key="digits")
    at = np.array([one.value for one in inputs], dtype=np.float64)
    u = np.array([one.standard_uncertainty or 0.0 for one in inputs], dtype=np.float64)
    matrix = correlation_matrix(names, correlations)
    vector = VectorModel(model, names, at)
    value = vector.at(at)
    if sensitivities is not None:
        slopes = given(vector, names, sensitivities)
    else:
        slopes = central(vector, at, u) if derivatives == "central" else complex_step(vector, at)
    covariance = matrix * np.outer(u, u)
    bends: list[SecondOrder | None] = [None] * value.size
    if curvature:
        live = np.flatnonzero(u > 0.0)
        root = np.zeros((at.size, live.size))
        if live.size:
            root[live] = u[live, None] * factor(matrix[np.ix_(live, live)])
        bends = list(second_order(vector, at, root))
    firsts = [
        _first_order(name, float(y), row, missing, inputs, matrix, covariance, level)
        for name, y, row, missing in zip(vector.outputs, value, slopes, _missing(vector, inputs, at, u), strict=True)
    ]
    clouds: list[MonteCarlo | None] = [None] * value.size
    if draws and any(one.complete for one in firsts) and seed is not None:
        ends = [_ends(one) for one in firsts]
        taken = Draws(inputs, matrix, seed)
        found = monte_carlo(
            vector,
            taken,
            level=level,
            digits=digits,
            cap=cap,
            seed=seed,
            elementwise=elementwise,
            ends=ends,
            tick=tick,
        )
        clouds = [cloud if one.complete else None for cloud, one in zip(found, firsts, strict=True)]
    outputs = tuple(_with(*one) for one in zip(firsts, bends, clouds, strict=True))
    return Propagation(outputs, _correlations(outputs, slopes @ covariance @ slopes.T))


def _first_order(
    name: str,
    value: float,
    slopes: Floats,
    missing: tuple[str, ...],
    inputs: Sequence[Input],
    matrix: Floats,
    covariance: Floats,
    level: float,
) -> Output:
    parts = slopes * (covariance @ slopes)
    variance = max(float(np.sum(parts)), 0.0)
    known = math.sqrt(variance)
    lines = tuple(
        BudgetLine(
            one.name,
            one.value,
            one.standard_uncertainty,
            one.dof,
            float(slope),
            None if one.standard_uncertainty is None else abs(float(slope)) * one.standard_uncertainty,
            None if one.standard_uncertainty is None or variance == 0.0 else float(part) / variance,
            one.evaluation,
            one.source,
            one.unit,
        )
        for one, slope, part in zip(inputs, slopes, parts, strict=True)
    )
    if missing:
        said = Remark("warning", _blame(name, missing), "missing uncertainty")
        return Output(name, value, None, known, None, level, None, None, lines, False, missing, None, None, (said,))
    groups = blocks(matrix)
    group_u = [math.sqrt(max(float(np.sum(parts[group])), 0.0)) for group in groups]
    dof = effective_dof(group_u, [min(inputs[i].dof for i in group) for group in groups])
    k = coverage_factor(level, dof)
    return Output(name, value, known, known, dof, level, k, k * known, lines, True, (), None, None, ())


def _missing(model: VectorModel, inputs: Sequence[Input], at: Floats, uncertainty: Floats) -> list[tuple[str, ...]]:
    """For each output the inputs of unknown uncertainty that move it at all, even where the slope is nought."""
    unknown = [i for i, one in enumerate(inputs) if one.standard_uncertainty is None]
    moves = {i: moved_by(model, at, uncertainty, i) for i in unknown}
    return [tuple(inputs[i].name for i in unknown if moves[i][row]) for row in range(len(model.outputs))]


def _with(one: Output, bend: SecondOrder | None, cloud: MonteCarlo | None) -> Output:
    said = list(one.remarks)
    if bend is not None and bend.fails:
        with_it = "no variance" if bend.standard_uncertainty is None else f"{bend.standard_uncertainty:.3g}"
        said.append(
            Remark(
                "caution",
                f"First order fails for {one.name}: {one.known_part:.3g} becomes {with_it} with terms of second "
                f"order, and the mean moves by {bend.mean_shift:.3g}. Use Monte Carlo.",
                "first order",
            )
        )
    if cloud is not None and not cloud.settled:
        said.append(
            Remark("caution", f"{one.name} did not settle in {cloud.draws} draws; its last digit may move.", "draws")
        )
    if cloud is not None and cloud.settled and not cloud.first_order_agrees:
        said.append(
            Remark(
                "note",
                f"First order's interval of {one.name} is off by more than {cloud.tolerance:.2g} from that of "
                f"{cloud.draws} draws: quote the drawn one.",
                "first order",
            )
        )
    return replace(one, second_order=bend, monte_carlo=cloud, remarks=tuple(said))


def _blame(name: str, missing: tuple[str, ...]) -> str:
    return (
        f"The uncertainty of {name} is incomplete: nobody has said how uncertain {', '.join(missing)} "
        f"{'is' if len(missing) == 1 else 'are'}. Give a certificate, a data sheet or readings."
    )


def _ends(one: Output) -> tuple[float, float]:
    half = one.expanded or 0.0
    return one.value - half, one.value + half


def _correlations(outputs: Sequence[Output], covariance: Floats) -> tuple[OutputCorrelation, ...]:
    found = []
    for i, first in enumerate(outputs):
        for j in range(i + 1, len(outputs)):
            scale = math.sqrt(max(float(covariance[i, i] * covariance[j, j]), 0.0))
            known = first.complete and outputs[j].complete and scale > 0.0
            r = min(max(float(covariance[i, j]) / scale, -1.0), 1.0) if known else None
            found.append(OutputCorrelation(first.name, outputs[j].name, r))
    return tuple(found)
