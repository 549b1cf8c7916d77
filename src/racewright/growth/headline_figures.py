"""Figures of a solved step that are claimed first, and claims filled with them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from racewright.growth.claims import Claim
from racewright.growth.step import SolvedStep
from racewright.growth.step_numbers import tip_relative_speed
from racewright.uncertainty import Band

_NO_BAND = "no prior band is known for it; a test will give one"
_SOURCE = "the stage solved at the design point"


@dataclass(frozen=True, slots=True)
class Figure:
    """One computed figure.

    Attributes
    ----------
    value : float
        [`unit`]
    unit : str
        Empty for a pure number.
    band : Band or None
        The prior band on power, carried over; None where none is known [`unit`].
    """

    value: float
    unit: str
    band: Band | None


def headline_figures(solved: SolvedStep) -> dict[str, Figure]:
    """Figures at the design point, by the name that a claim calls them.

    Parameters
    ----------
    solved : SolvedStep
        Its power is above 0; else those that go with power have no band.
    """
    point = solved.point
    power = point.band

    def with_power(value: float) -> Band | None:
        """The band of what is proportional to shaft power."""
        if point.shaft_power <= 0.0:
            return None
        share = value / point.shaft_power
        return Band(power.low * share, value, power.high * share, power.basis)

    found = {
        "shaft power at design": (point.shaft_power, "W", True),
        "electrical power at design": (solved.electrical_power, "W", True),
        "shaft torque at design": (point.torque, "N m", True),
        "power coefficient at design": (point.power_coefficient, "", True),
        "power coefficient on exit area at design": (point.exit_power_coefficient, "", True),
        "hydraulic efficiency at design": (point.hydraulic_efficiency, "", False),
        "thrust at design": (point.thrust, "N", False),
        "rotor speed at design": (point.rotor_speed, "rad/s", False),
        "strike speed at the tip at design": (tip_relative_speed(solved), "m/s", False),
    }
    return {
        name: Figure(value, unit, with_power(value) if goes else None) for name, (value, unit, goes) in found.items()
    }


def filled(claim: Claim, figures: Mapping[str, Figure]) -> Claim:
    """A computed claim without a value takes the figure of its name, with unit and band; any other stays as it is.

    What is said to be measured, published or remembered must state its own figure: a computed one is none of these.
    """
    figure = figures.get(claim.name)
    if claim.basis != "computed" or claim.value is not None or figure is None:
        return claim
    return replace(
        claim,
        value=figure.value,
        unit=figure.unit,
        band=figure.band,
        why_no_band="" if figure.band else claim.why_no_band or _NO_BAND,
        source=claim.source or _SOURCE,
    )


def headline_claims(solved: SolvedStep, step: str) -> tuple[Claim, ...]:
    """The figures of a solved step as computed claims for the step of that name; no test, none planned."""
    figures = headline_figures(solved)
    return tuple(filled(Claim(name, "computed", None, step=step), figures) for name in figures)
