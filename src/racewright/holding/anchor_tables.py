"""The packaged coefficients of anchors."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from racewright.errors import InputError
from racewright.uncertainty import Band

KIP = 4448.2216152605
"""1000 lbf; exact: 0.45359237 kg x 9.80665 m/s2 x 1000 [N]."""
FOOT = 0.3048
"""Exact [m]."""


@dataclass(frozen=True, slots=True)
class DragCoefficients:
    """Power law of one drag anchor form on one kind of bed.

    Attributes
    ----------
    form, bed : str
    reference_holding : float
        Ultimate holding at the reference mass [N].
    exponent : float
        [-]
    reference_mass : float
        In air [kg].
    scatter : tuple of float
        What the holding may be of its value, low and high [-].
    smallest_mass : float
        Below it the law is stretched far [kg].
    factor_key : str
        Usual row of the safety factors.
    source, edition, status : str
    """

    form: str
    bed: str
    reference_holding: float
    exponent: float
    reference_mass: float
    scatter: tuple[float, float]
    smallest_mass: float
    factor_key: str
    source: str
    edition: str
    status: str


@cache
def anchor_data() -> dict[str, Any]:
    """The packaged table as it stands; read only."""
    text = resources.files("racewright.holding").joinpath("data/anchors.toml").read_text("utf-8")
    return tomllib.loads(text)


def bed_friction(bed: str) -> Band:
    """Friction coefficient of a block on a bed, low to high [-].

    Raises
    ------
    InputError
        A bed that the table has not.
    """
    data = anchor_data()["bed_friction"]
    beds = [name for name, row in data.items() if isinstance(row, list)]
    if bed not in beds:
        raise InputError(
            f"no friction is known for a bed of '{bed}'; take one of {', '.join(beds)}, or state your own"
        )
    low, value, high = data[bed]
    return Band(low, value, high, f"{data['source']}; {data['status']}")


def drag_coefficients(form: str, bed: str) -> DragCoefficients | None:
    """The row of that form and bed, None when nothing is published for this pair.

    Raises
    ------
    InputError
        A form that the table has not.
    """
    data = anchor_data()["drag"]
    forms = sorted({row["form"] for row in data["row"]})
    if form not in forms:
        raise InputError(f"no drag anchor is called '{form}'; there are {', '.join(forms)}")
    for row in data["row"]:
        if (row["form"], row["bed"]) == (form, bed):
            low, high = data["scatter"]
            return DragCoefficients(
                form=form,
                bed=bed,
                reference_holding=row["holding_kip"] * KIP,
                exponent=row["exponent"],
                reference_mass=data["reference_mass"],
                scatter=(low, high),
                smallest_mass=data["smallest_mass"],
                factor_key=row["factor_key"],
                source=data["source"],
                edition=data["edition"],
                status=f"form {data['form_status']}; coefficients {row['status']}; scatter {data['scatter_status']}",
            )
    return None
