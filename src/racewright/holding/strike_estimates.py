"""The code forms side by side for one log, each with its edition and what it leaves out."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.holding.contact_table import contact_stiffnesses
from racewright.holding.strike_codes import (
    GRAVITY,
    ORIENTATION,
    STOPPING_DISTANCE,
    coastal_form,
    elastic_bar,
    energy_form,
    flood_impulse,
    mean_stopping_form,
    tsunami_chapter,
    tsunami_refuge_form,
)
from racewright.holding.strike_figure import SCREENING, SafetyFigure
from racewright.holding.strike_spectrum import R_MAX_EDITION, code_factor


@dataclass(frozen=True, slots=True)
class Estimate:
    """One code's force.

    Attributes
    ----------
    name : str
    force : SafetyFigure
        With the form as basis, its edition, and a caution [N].
    status : str
        How form and numbers are known here.
    leaves_out : str
        What the form does not know.
    """

    name: str
    force: SafetyFigure
    status: str
    leaves_out: str


RIGID = "that the machine yields, so it is high for one on tethers"
_CAUTION = (
    "A code's form for buildings or bridges, used here for comparison only: no code written for floating machines "
    f"stands behind it. {SCREENING}"
)


def code_estimates(
    mass: float, diameter: float, speed: float, *, period_ratio: float = 0.5, modulus: float = 10e9
) -> tuple[Estimate, ...]:
    """Named estimates for a log that strikes a rigid thing end-on.

    Parameters
    ----------
    mass : float
        > 0 [kg].
    diameter : float
        > 0 [m].
    speed : float
        > 0 [m/s].
    period_ratio : float
        Time of impact (0.03 s) over the struck thing's natural period [-].
    modulus : float
        Of the wood along the grain, 5 to 15 GPa (wood handbooks, from memory) [Pa].
    """
    soft, stiff = contact_stiffnesses()[0].value, contact_stiffnesses()[-1].value
    weight = mass * GRAVITY
    response = code_factor(period_ratio)
    tsunami = tsunami_chapter(mass, speed, stiff)[0]
    flood = flood_impulse(weight, speed, response=response)
    plain = flood_impulse(weight, speed, orientation=1.0)
    stop = mean_stopping_form(mass, speed, 0.5)
    far, near = STOPPING_DISTANCE["timber"], STOPPING_DISTANCE["solid concrete"]
    coast = [coastal_form(weight, speed, 1.0, 1.0, c) for c in (0.2, 0.8)]
    refuge = [tsunami_refuge_form(mass, speed, soft, edition=edition) for edition in (2, 1)]
    bar = [elastic_bar(diameter, speed, modulus, rho) for rho in (500.0, 1000.0)]
    return (
        _one("flood impulse", flood, plain, f"pi W V CO Rmax/(2 g t), t 0.03 s, CO {ORIENTATION:g} and Rmax "
             f"{response:.2f}, or both 1", f"ASCE 7-05 C5.4.5; {R_MAX_EDITION}", "form from memory, 95 %"),
        _one("coastal manual", *coast, "W V CD CB CStr, CStr 0.2 timber pile to 0.8 wall", "FEMA P-55 vol. II (2011)",
             "from memory, 85 %"),
        _one("tsunami refuge", *refuge, "1.3 u sqrt(k m), k 2.4 MN/m; factor 2.0 in the first edition",
             "FEMA P-646 2nd ed. (2012) and 1st (2008)", "from memory, 85 %"),
        _one("tsunami chapter", tsunami, tsunami / 0.65, "u sqrt(k m) with and without Co 0.65, k 61 MN/m",
             "ASCE 7-16 6.11", "from memory, 90 %"),
        _one("elastic bar", *bar, "V A sqrt(E rho), rho 500 to 1000 kg/m3", "wave theory", "closed form"),
        _one("half-second stop", stop, stop, "m V/t, t 0.5 s; far too low for stiff bodies",
             "local flood codes, no edition", "published (mass and time)"),
        _one("stopping distance", energy_form(mass, speed, far), energy_form(mass, speed, near),
             "m V^2/(2 x), x 300 mm timber to 75 mm solid concrete", "AS 5100 and before it", "from memory, 75 %"),
    )  # fmt: skip


def _one(name: str, one: float, other: float, basis: str, edition: str, status: str) -> Estimate:
    force = SafetyFigure(f"{name} force", "N", min(one, other), None, max(one, other), basis, edition, _CAUTION)
    return Estimate(name, force, status, RIGID)
