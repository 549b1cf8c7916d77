"""Electrical cautions that travel with every drive."""

from __future__ import annotations

from racewright.machine.drive_checks import number
from racewright.remark import Remark

EXTRA_LOW_VOLTAGE = 120.0
"""Direct voltage up to which installations count as extra-low, dry; far lower limits hold in and near water
(IEC 61140, IEC 60364-4-41; from memory) [V]."""

_DEFER = "A licensed electrician and the local code decide."


def electrical_remarks(
    *,
    open_voltage: float | None = None,
    battery_voltage: float | None = None,
    magnets: bool = False,
    brake: bool = False,
    dump_load: bool = False,
    on_a_network: bool = False,
) -> tuple[Remark, ...]:
    """What the reader of a drive's results must be told.

    Parameters
    ----------
    open_voltage : float, optional
        Direct voltage of the unloaded generator at runaway in the fastest water, >= 0 [V].
    battery_voltage : float, optional
        > 0 [V].
    magnets : bool
        The generator has permanent magnets.
    brake, dump_load : bool
        The drive has one.
    on_a_network : bool
        It feeds a network that others feed too.
    """
    found: list[Remark] = []
    if magnets:
        found.append(
            Remark(
                "warning",
                "A permanent-magnet generator cannot be switched off: its terminals are live while the rotor turns, "
                "cable cut or not. Stop and lock the rotor, and prove the terminals dead, before anyone works on it; "
                f"short-circuiting it may overheat it or weaken its magnets and may not hold the rotor. {_DEFER}",
                "live while turning",
            )
        )
    if open_voltage is not None and number("The open voltage", open_voltage, 0.0, 1e6, "V") > EXTRA_LOW_VOLTAGE:
        found.append(
            Remark(
                "warning",
                f"Without load in the fastest water the generator reaches {open_voltage:.0f} V direct, above the "
                f"{EXTRA_LOW_VOLTAGE:.0f} V of extra-low voltage in dry places; in and near water the limit is far "
                f"lower. Insulation, bridge and converter must bear it. {_DEFER}",
                "voltage at runaway",
            )
        )
    elif open_voltage is not None:
        found.append(
            Remark(
                "caution",
                f"Without load in the fastest water the generator reaches {open_voltage:.0f} V direct; in and near "
                f"water even extra-low voltage can kill. {_DEFER}",
                "voltage at runaway",
            )
        )
    if battery_voltage is not None:
        number("The battery's voltage", battery_voltage, 1.0, 1e4, "V")
        found.append(
            Remark(
                "warning",
                f"A battery of {battery_voltage:.0f} V feeds a short circuit with thousands of amperes and arcs that "
                "do not go out by themselves; when it is full or its fuse opens, the generator loses its load at "
                f"once. Fuses, disconnects and ventilation follow the local code. {_DEFER}",
                "battery",
            )
        )
    if on_a_network:
        found.append(
            Remark(
                "warning",
                "A generator that goes on feeding a network which others have switched off (islanding) endangers the "
                f"people who work on it: protection that parts it is required by network rules. {_DEFER}",
                "islanding",
            )
        )
    if not brake:
        found.append(
            Remark(
                "caution",
                "No brake is given: after loss of load nothing stops the rotor short of runaway, and nobody can work "
                "on it in the current.",
                "brake",
            )
        )
    else:
        found.append(
            Remark(
                "caution",
                "Brakes fail, wet ones sooner: rotor, generator and bearings must outlive runaway in the fastest "
                "water, and a brake is no lock. Pin the rotor before anyone comes near.",
                "brake",
            )
        )
    if dump_load:
        found.append(
            Remark(
                "caution",
                "A dump load runs hot and is lost with its fuse, its controller or its water: loss of load must be "
                f"borne without it. {_DEFER}",
                "dump load",
            )
        )
    return tuple(found)
