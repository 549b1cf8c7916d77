"""What the machine page shows beyond the quick answer, by part: point and curves, the water, the year."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from racewright.desk.parts.machine_field import field_of
from racewright.desk.parts.machine_shape import row_shape, shape_of
from racewright.desk.seam import Asked
from racewright.ledger.graph import plan
from racewright.ledger.inputs import case_of


@dataclass(frozen=True)
class Share:
    """Who takes a part of the power that the stream loses to the machine [W]."""

    name: str
    power: float
    useful: bool


UNITS = {"Share": {"power": "W"}}


def now(asked: Asked) -> dict[str, Any]:
    """The design point with its band as `point --json` has it, its loss budget, and the curve of the report."""
    if not there(asked):
        return {"point": None, "shape": None, "vanes": None, "rotor": None, "curve": None, "budget": []}
    from racewright.dossier.chapters.outside import parts
    from racewright.ledger.convert import unit_of
    from racewright.machine.diffuser import diffuser_remarks
    from racewright.stage.bands import band_at

    values = asked.values("design_point", "curve", "bands")
    name, case = case_of(asked.loaded, asked.options.case)
    keys = plan(asked.loaded, name, case, ("design_point",)).given["design_point"].keys
    unit, point = unit_of(keys), values["design_point"]
    remarks = (*diffuser_remarks(unit.duct), *point.remarks)
    point = replace(point, band=band_at(point.shaft_power, values["bands"]), remarks=remarks)
    vanes, blades = values["rows"]
    return {
        "point": point,
        "shape": shape_of(keys),
        "vanes": row_shape(vanes, unit.vanes.turned),
        "rotor": row_shape(blades, unit.blades.turned),
        "curve": values["curve"],
        "budget": [Share(p.name, p.power, p.useful) for p in parts(point)],
    }


def water(asked: Asked) -> dict[str, Any]:
    """Streamlines and pressure around the machine at its design load."""
    if not there(asked):
        return {"field": None}
    values = asked.values("streamlines")
    point = values["design_point"]
    dynamic = 0.5 * asked.values("water")["water"].density * point.stream_speed**2
    return {"field": field_of(values["flow"], values["streamlines"], point.head_coefficient, dynamic)}


def year(asked: Asked) -> dict[str, Any]:
    """Yearly energy with its band and the loads in every state, as the report has them."""
    if not there(asked):
        return {"energy": None, "states": []}
    from racewright.ledger.energy_parts import energy_of

    values = asked.values("energy", "energy_band")
    asked.tick(0.6)
    return {"energy": energy_of(values), "states": list(asked.values("states")["states"])}


def there(asked: Asked) -> bool:
    """Whether the case has a machine."""
    return case_of(asked.loaded, asked.options.case)[1].machine is not None
