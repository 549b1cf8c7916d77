"""From scheme tables to the things that the physics knows."""

from __future__ import annotations

from racewright.machine.drive import Drive
from racewright.machine.duct import Duct
from racewright.machine.hub import Hub
from racewright.machine.unit import DesignIntent, RowIntent, Unit
from racewright.scheme.machine_tables import MachineTable


def unit_of(table: MachineTable) -> Unit:
    """The machine as it is meant."""
    duct, hub, vanes, rotor, drive = table.duct, table.hub, table.vanes, table.rotor, table.drive
    return Unit(
        duct=Duct(0.5 * duct.throat_diameter, duct.exit_area_ratio, duct.length, duct.thickness),
        hub=Hub(0.5 * hub.diameter, hub.nose_x, hub.nose_length, hub.cylinder_length, hub.tail_length),
        vanes=RowIntent(
            vanes.count, vanes.place_x, vanes.hub_chord, vanes.tip_chord, vanes.thickness, turned=vanes.turned
        ),
        blades=RowIntent(
            rotor.count,
            rotor.place_x,
            rotor.hub_chord,
            rotor.tip_chord,
            rotor.thickness,
            clearance=rotor.clearance,
            turned=rotor.turned,
        ),
        design=DesignIntent(table.design.stream_speed, table.design.head_coefficient, table.design.tip_speed_ratio),
        drive=Drive(drive.gear_efficiency, drive.generator_efficiency, drive.cut_in_speed, drive.rated_power),
        roughness=table.roughness,
    )
