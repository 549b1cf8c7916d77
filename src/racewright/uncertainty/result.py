"""What propagation returns: for each output a value, its uncertainty, its budget and how far to trust them."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.remark import Remark
from racewright.uncertainty.inputs import Evaluation
from racewright.uncertainty.monte_carlo import MonteCarlo
from racewright.uncertainty.second_order import SecondOrder


@dataclass(frozen=True)
class BudgetLine:
    """One input's part in one output.

    Attributes
    ----------
    name : str
        The input.
    value : float
        Its estimate [SI unit of the input].
    standard_uncertainty : float or None
        None where nobody knows it [SI unit of the input].
    dof : float
        Its degrees of freedom [-].
    sensitivity : float
        Derivative of the output by it [unit of the output over that of the input].
    contribution : float or None
        |sensitivity| times its uncertainty [unit of the output].
    share : float or None
        Its part of the output's known variance; parts add to 1, and with correlation one may be negative. None
        where the uncertainty is missing or there is no variance [-].
    evaluation : {'A', 'B'}
    source, unit : str
        As the input says.
    """

    name: str
    value: float
    standard_uncertainty: float | None
    dof: float
    sensitivity: float
    contribution: float | None
    share: float | None
    evaluation: Evaluation
    source: str
    unit: str


@dataclass(frozen=True)
class Output:
    """One result with its uncertainty.

    Attributes
    ----------
    name : str
    value : float
        The model at the estimates [unit of the output].
    standard_uncertainty : float or None
        Combined, first order with correlations; None when the result is incomplete [unit of the output].
    known_part : float
        The same from the inputs whose uncertainty is known; of an incomplete result a floor, not an
        uncertainty [unit of the output].
    effective_dof : float or None
        Welch-Satterthwaite; inputs that are correlated count as one with the fewest degrees of freedom among
        them (own choice). None when incomplete [-].
    level : float
        Coverage probability [-].
    coverage_factor : float or None
        k, from Student's t [-].
    expanded : float or None
        k times the standard uncertainty [unit of the output].
    budget : tuple of BudgetLine
        Every input, in the order given.
    complete : bool
        False when an input that matters has no uncertainty.
    missing : tuple of str
        Those inputs.
    second_order : SecondOrder or None
        Terms of curvature from the known inputs; None when not asked for.
    monte_carlo : MonteCarlo or None
        None when not asked for, or incomplete.
    remarks : tuple of Remark
    """

    name: str
    value: float
    standard_uncertainty: float | None
    known_part: float
    effective_dof: float | None
    level: float
    coverage_factor: float | None
    expanded: float | None
    budget: tuple[BudgetLine, ...]
    complete: bool
    missing: tuple[str, ...]
    second_order: SecondOrder | None
    monte_carlo: MonteCarlo | None
    remarks: tuple[Remark, ...]


@dataclass(frozen=True)
class OutputCorrelation:
    """How the errors of two outputs go together.

    Attributes
    ----------
    first, second : str
    coefficient : float or None
        r by first order; None when either is incomplete or has no variance [-].
    """

    first: str
    second: str
    coefficient: float | None


@dataclass(frozen=True)
class Propagation:
    """All outputs of one model.

    Attributes
    ----------
    outputs : tuple of Output
    correlations : tuple of OutputCorrelation
        Every pair of outputs.
    """

    outputs: tuple[Output, ...]
    correlations: tuple[OutputCorrelation, ...]

    def __getitem__(self, name: str) -> Output:
        for one in self.outputs:
            if one.name == name:
                return one
        raise KeyError(name)

    def correlation(self, first: str, second: str) -> float | None:
        """r of the errors of two outputs [-]; KeyError for an unknown pair."""
        for one in self.correlations:
            if {one.first, one.second} == {first, second}:
                return one.coefficient
        raise KeyError((first, second))
