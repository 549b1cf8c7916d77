"""The drawing of the machine with its handles: what each changes, and the element that shows it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass
from typing import Any

from nicegui.element import Element


@dataclass(frozen=True)
class Handle:
    """Something on the drawing that can be pulled.

    Attributes
    ----------
    name : str
        The drawing knows where it sits.
    key : str
        Dotted scheme key below the machine's table.
    label, unit : str
    decimals : int
        That the drawing sets it to.
    low, high, step : float
        In `unit`; the step is that of an arrow key. Own choice, the scheme's own limits still hold.
    row : str
        'vanes' or 'rotor' where it belongs to one.
    """

    name: str
    key: str
    label: str
    unit: str
    decimals: int
    low: float
    high: float
    step: float
    row: str = ""


HANDLES = (
    Handle("throat", "duct.throat_diameter", "throat diameter", "m", 3, 0.05, 40.0, 0.01),
    Handle("exit", "duct.exit_area_ratio", "exit area ratio", "", 2, 1.0, 3.0, 0.01),
    Handle("vanes_hub_chord", "vanes.hub_chord", "vanes' hub chord", "m", 3, 0.01, 10.0, 0.005, "vanes"),
    Handle("vanes_tip_chord", "vanes.tip_chord", "vanes' tip chord", "m", 3, 0.01, 10.0, 0.005, "vanes"),
    Handle("rotor_hub_chord", "rotor.hub_chord", "blades' hub chord", "m", 3, 0.01, 10.0, 0.005, "rotor"),
    Handle("rotor_tip_chord", "rotor.tip_chord", "blades' tip chord", "m", 3, 0.01, 10.0, 0.005, "rotor"),
    Handle("vanes_turned", "vanes.turned", "vanes turned", "deg", 1, -30.0, 30.0, 0.5, "vanes"),
    Handle("rotor_turned", "rotor.turned", "blades turned", "deg", 1, -30.0, 30.0, 0.5, "rotor"),
    Handle("vanes_count", "vanes.count", "vanes", "", 0, 2.0, 40.0, 1.0, "vanes"),
    Handle("rotor_count", "rotor.count", "blades", "", 0, 2.0, 40.0, 1.0, "rotor"),
    Handle("ratio", "design.tip_speed_ratio", "design tip-speed ratio", "", 2, 0.3, 8.0, 0.05),
)


def text_of(handle: Handle, value: float) -> str | int | float:
    """A value as the scheme writes it."""
    if handle.unit:
        return f"{value:.{handle.decimals}f} {handle.unit}"
    return round(value) if handle.decimals == 0 else round(value, handle.decimals)


class MachineDrawing(Element, component="machine_drawing.js"):
    """The drawing; `turned` is called with handle, value and whether it was let go.

    Parameters
    ----------
    turned : callable
        (handle, value, done).
    """

    def __init__(self, turned: Callable[[Handle, float, bool], None]) -> None:
        super().__init__()
        self._props.update(shape=None, vanes=None, rotor=None, field=None, stale=False, handles=[], speed="")
        named = {handle.name: handle for handle in HANDLES}

        def told(event: Any) -> None:
            name, value = event.args.get("name"), event.args.get("value")
            if name in named and isinstance(value, int | float):
                turned(named[name], float(value), bool(event.args.get("done")))

        self.on("turned", told)

    def show(self, **given: Any) -> None:
        """Show a shape, a triangle, handles with their values, or a field."""
        self._props.update(given)
        self.update()


def with_values(values: Mapping[str, float]) -> list[dict[str, Any]]:
    """Handles with what they stand at, those without a value left out."""
    return [{**asdict(h), "value": values[h.name]} for h in HANDLES if h.name in values]
