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
from racewright.safety import SafetyBasis


@dataclass(frozen=True, slots=True)
class Estimate:
    """One code's force.

    Attributes
    ----------
    name : str
    force : SafetyFigure
        With the form as basis, its edition, how both are known here, and a caution [N].
    leaves_out : str
        What the form does not know.
    """

    name: str
    force: SafetyFigure
    leaves_out: str


RIGID = "that the machine yields, so it is high for one on tethers"
_CAUTION = (
    "A code's form for buildings or bridges, used here for comparison only: no code written for floating machines "
    f"stands behind it. {SCREENING}"
)

_75, _85, _90, _READ = "from memory, 75 %", "from memory, 85 %", "from memory, 90 %", "published (mass and time)"


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
    far, near = (energy_form(mass, speed, STOPPING_DISTANCE[k]) for k in ("timber", "solid concrete"))
    coast = (coastal_form(weight, speed, 1.0, 1.0, 0.2), coastal_form(weight, speed, 1.0, 1.0, 0.8))
    refuge = (tsunami_refuge_form(mass, speed, soft), tsunami_refuge_form(mass, speed, soft, edition=1))
    bar = (elastic_bar(diameter, speed, modulus, 500.0), elastic_bar(diameter, speed, modulus, 1000.0))
    flood_basis = f"pi W V CO Rmax/(2 g t), t 0.03 s, CO {ORIENTATION:g} and Rmax {response:.2f}, or both 1"
    flood_edition = f"ASCE 7-05 C5.4.5; {R_MAX_EDITION}"
    rows: tuple[tuple[str, float, float, str, str, str], ...] = (
        ("flood impulse", flood, plain, flood_basis, flood_edition, "form from memory, 95 %"),
        (
            "coastal manual",
            *coast,
            "W V CD CB CStr, CStr 0.2 timber pile to 0.8 wall",
            "FEMA P-55 vol. II (2011)",
            _85,
        ),
        ("tsunami refuge", *refuge, "1.3 u sqrt(k m), k 2.4 MN/m; 1st edition 2.0", "FEMA P-646 (2012, 2008)", _85),
        ("tsunami chapter", tsunami, tsunami / 0.65, "u sqrt(k m), Co 0.65 or 1, k 61 MN/m", "ASCE 7-16 6.11", _90),
        ("elastic bar", *bar, "V A sqrt(E rho), rho 500 to 1000 kg/m3", "wave theory", "closed form"),
        ("half-second stop", stop, stop, "m V/t; far too low for stiff bodies", "local flood codes, undated", _READ),
        ("stopping distance", far, near, "m V^2/(2 x), x 300 mm timber to 75 mm concrete", "AS 5100 and before", _75),
    )
    return tuple(_one(*row) for row in rows)


def _one(name: str, one: float, other: float, basis: str, edition: str, status: str) -> Estimate:
    safety = SafetyBasis(basis, edition, status, _CAUTION)
    return Estimate(name, SafetyFigure(f"{name} force", "N", min(one, other), None, max(one, other), safety), RIGID)
