"""The element that shows the machine in the round; the kit's own copy of its 3-D library draws it."""

from __future__ import annotations

from typing import Any

import nicegui.elements.scene  # noqa: F401  (registers the 3-D library, served by the desk itself)
from nicegui.element import Element


class MachineRound(Element, component="machine_round.js"):
    """Turn it, cut it, pull it apart."""

    def __init__(self) -> None:
        super().__init__()
        self._props["solid"] = None

    def show(self, solid: dict[str, Any]) -> None:
        """Show what `machine_solid.solid` gave."""
        self._props["solid"] = {part: solid[part] for part in ("duct", "hub", "vanes", "rotor")}
        self.update()
