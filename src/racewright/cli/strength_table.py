"""What `racewright strength` says on the terminal."""

from __future__ import annotations

import math
from collections.abc import Iterator

from racewright.cautions import caution
from racewright.cli.energy_table import printable
from racewright.ledger.strength_findings import DuctStress, StrengthFindings
from racewright.ledger.strength_parts import strength_remarks

_YEAR = 365.0 * 86400.0


def strength_table(found: StrengthFindings) -> str:
    """Checks, duct, frequencies, fatigue, factors, remarks and cautions."""
    lines = [
        *_checks(found),
        *_duct(found.stresses.duct),
        *_frequencies(found),
        *_fatigue(found),
        *_factors(found),
        "",
        *(f"{remark.severity}: {printable(remark.about)}: {printable(remark.text)}" for remark in
          strength_remarks(found)),
        *(f"caution: {caution(hazard).sentence}" for hazard in ("structure", "fatigue")),
    ]  # fmt: skip
    return "\n".join(lines)


def _checks(found: StrengthFindings) -> Iterator[str]:
    yield "The worst check of each part (stress and strength with their factors)"
    yield f"{'part and case':<46}{'stress, MPa':>12}{'strength, MPa':>15}{'use':>8}"
    for name, check in found.checks.items():
        verdict = "" if check.passes else "  TOO WEAK"
        yield (
            f"{name:<46}{check.factored_stress / 1e6:>12.2f}{check.design_strength / 1e6:>15.1f}"
            f"{100.0 * check.use:>6.0f} %{verdict}"
        )


def _duct(duct: DuctStress) -> Iterator[str]:
    wall = "solid section" if duct.wall is None else f"skin of {1e3 * duct.wall:.1f} mm"
    yield ""
    yield (
        f"Duct, {wall}: outside pressure is up to {duct.pressure_difference / 1e3:.2f} kPa higher ({duct.state}), "
        f"{100.0 * duct.pressure.buckling_use:.2g} % of what folds a round ring"
    )
    if duct.point_load is None or duct.point is None:
        yield duct.point_from
        return
    yield (
        f"Push on one place: {duct.point_load / 1e3:.3g} kN ({printable(duct.point_from)}); the ring gives "
        f"{1e3 * duct.point.inward_at_load:.2g} mm there"
    )


def _frequencies(found: StrengthFindings) -> Iterator[str]:
    shaken = found.frequencies
    low, high = (speed * 30.0 / math.pi for speed in (shaken.slowest, shaken.fastest))
    yield ""
    yield f"Natural frequencies in water, Hz; rotor from {low:.0f} to {high:.0f} rpm (runaway)"
    for name, values in (
        ("vane", shaken.vane.in_water),
        ("blade", shaken.blade.in_water),
        ("duct", shaken.duct.in_water),
    ):
        yield f"  {name:<6}" + "".join(f"{value:>10.1f}" for value in values)
    close = [meeting for meeting in shaken.resonance.meetings if not meeting.apart]
    margin, pairs = 100.0 * shaken.resonance.margin, len(shaken.resonance.meetings)
    yield f"{len(close)} of {pairs} pairs with rotor, blades or vanes are nearer than {margin:.0f} %"


def _fatigue(found: StrengthFindings) -> Iterator[str]:
    for place in found.fatigue:
        damage = place.damage
        life = "no damage" if damage.life is None else f"life with its factor {damage.life / _YEAR:.3g} years"
        verdict = {None: "", True: ", enough", False: ", TOO SHORT"}[place.enough]
        yield f"Fatigue, {printable(place.place)}: Miner sum {damage.damage:.3g} in the series ({life}{verdict})"


def _factors(found: StrengthFindings) -> Iterator[str]:
    yield ""
    yield "Factors (keys of [machine.NAME.strength.factors]; change them there)"
    for factor in found.stresses.factors:
        number = "none" if factor.factor is None else f"{factor.factor:g}"
        yield f"  {factor.key}: {number}, {factor.safety.basis} ({factor.safety.edition}; {factor.safety.status})"
