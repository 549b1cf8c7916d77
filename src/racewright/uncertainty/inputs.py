"""One input quantity: its value, how uncertain, of which shape, and who says so."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from racewright.errors import InputError

Shape = Literal["normal", "t", "rectangular", "triangular", "arcsine", "exponential"]
Evaluation = Literal["A", "B"]

SHAPES: tuple[Shape, ...] = ("normal", "t", "rectangular", "triangular", "arcsine", "exponential")


@dataclass(frozen=True)
class Input:
    """An input of a measurement model.

    Attributes
    ----------
    name : str
        As the model calls it.
    value : float
        Best estimate [SI unit of the quantity].
    standard_uncertainty : float or None
        One standard uncertainty, 0 or more; None where nobody knows it, which makes every result that depends
        on it incomplete. For the shape 't' it is the scale s/sqrt(n) [SI unit of the quantity].
    dof : float
        Degrees of freedom of that uncertainty, above 0; infinite when it is taken as certain [-].
    shape : {'normal', 't', 'rectangular', 'triangular', 'arcsine', 'exponential'}
        Distribution that Monte Carlo draws from. 'exponential' starts one standard uncertainty below the value.
    evaluation : {'A', 'B'}
        A from repeated readings, B from anything else (GUM 4.2, 4.3).
    source : str
        Certificate, data sheet, readings, judgement.
    unit : str
        For the reader.
    """

    name: str
    value: float
    standard_uncertainty: float | None
    dof: float = math.inf
    shape: Shape = "normal"
    evaluation: Evaluation = "B"
    source: str = ""
    unit: str = ""

    def __post_init__(self) -> None:
        if not math.isfinite(self.value):
            raise InputError(f"its value is {self.value}; it must be a finite number", key=self.name)
        u = self.standard_uncertainty
        if u is not None and not (math.isfinite(u) and u >= 0.0):
            raise InputError(
                f"its standard uncertainty is {u}; it must be 0 or more, or None where it is not known", key=self.name
            )
        if math.isnan(self.dof) or self.dof <= 0.0:
            raise InputError(f"its degrees of freedom are {self.dof}; they must be above 0", key=self.name)
        if self.shape not in SHAPES:
            raise InputError(f"its shape is {self.shape!r}; it must be one of {', '.join(SHAPES)}", key=self.name)
        if self.shape == "t" and not math.isfinite(self.dof):
            raise InputError("the shape 't' needs finite degrees of freedom; else take 'normal'", key=self.name)
        if self.evaluation not in ("A", "B"):
            raise InputError(f"its evaluation is {self.evaluation!r}; it must be 'A' or 'B'", key=self.name)
