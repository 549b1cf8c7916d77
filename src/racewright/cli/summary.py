"""The findings as `report --json` prints them: every answer, none of the bulk arrays of the flow."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from racewright.cli.drive_summary import control_figures
from racewright.cli.growth_case import growth_figures
from racewright.cli.holding_answer import holding_printed
from racewright.cli.neighbours_case import neighbours_figures
from racewright.cli.place_summary import place_summary
from racewright.cli.trials_compared import trials_figures
from racewright.flow.result import Axisymmetric
from racewright.ledger.findings import Findings, MachineFindings


@dataclass(frozen=True)
class FlowSummary:
    """The flow at its ladder of loads."""

    head_coefficient: NDArray[np.float64]
    far_wake_speed: NDArray[np.float64]
    speed_ratio: NDArray[np.float64]
    duct_force: NDArray[np.float64]
    hub_force: NDArray[np.float64]
    residual: NDArray[np.float64]
    converged: NDArray[np.bool_]
    iterations: NDArray[np.int64]
    annulus_area: float


def summary(findings: Findings) -> dict[str, Any]:
    """A dict of dataclasses and plain values, ready for `encode.to_json`."""
    return {
        "title": findings.title,
        "case": findings.case,
        "count": findings.count,
        "invented": list(findings.invented),
        "left_out": list(findings.left_out),
        "machine": _machine(findings.machine) if findings.machine else None,
        "place": place_summary(findings.place) if findings.place else None,
        "energy": findings.energy,
        "energy_parts": findings.energy_parts,
        "community": findings.community,
        "trials": trials_figures(findings.trials) if findings.trials else None,
        "neighbours": neighbours_figures(findings.neighbours) if findings.neighbours else None,
        "holding": holding_printed(findings.holding) if findings.holding else None,
        "strength": findings.strength,
        "growth": growth_figures(findings.growth) if findings.growth else None,
        "supply": findings.supply,
        "upkeep": findings.upkeep,
        "missing": [asdict(m) for m in findings.missing],
        "remarks": [asdict(r) for r in findings.remarks],
    }


def _machine(machine: MachineFindings) -> dict[str, Any]:
    return {
        "name": machine.name,
        "unit": machine.unit,
        "drive": machine.drive,
        "vanes": machine.vanes,
        "blades": machine.blades,
        "water": machine.water,
        "flow": _flow(machine.flow),
        "design_point": machine.design_point,
        "curve": machine.curve,
        "power_curve": machine.power_curve,
        "states": machine.states,
        "bands": machine.bands,
        "control": control_figures(machine.control),
        "cavitation": machine.cavitation,
    }


def _flow(flow: Axisymmetric) -> FlowSummary:
    return FlowSummary(
        flow.head_coefficient,
        flow.far_wake_speed,
        flow.speed_ratio,
        flow.duct_force,
        flow.hub_force,
        flow.residual,
        flow.converged,
        flow.iterations,
        flow.annulus_area,
    )
