"""SI units of the drive's fields; '-' for ratios."""

from __future__ import annotations

DRIVE_UNITS: dict[str, dict[str, str]] = {
    "WayFigures": {
        "fails_from": "m/s",
        "torque": "N m",
        "thrust": "N",
        "roll_moment": "N m",
        "rotor_speed": "rad/s",
        "tip_speed": "m/s",
        "strike_speed": "m/s",
        "dumped_power": "W",
        "jump": "-",
    },
    "ControlFigures": {"rated_speed": "m/s", "torque_limit": "N m", "rotor_speed_limit": "rad/s"},
    "ControlCurve": {
        "stream_speed": "m/s",
        "rotor_speed": "rad/s",
        "tip_speed_ratio": "-",
        "shaft_power": "W",
        "electrical_power": "W",
        "unlimited_power": "W",
        "dumped_power": "W",
        "torque": "N m",
        "thrust": "N",
        "roll_moment": "N m",
        "tip_speed": "m/s",
        "strike_speed": "m/s",
    },
    "StartUp": {
        "breakaway_torque": "N m",
        "starting_speed": "m/s",
        "running_speed": "m/s",
        "sticking_rotor_speed": "rad/s",
    },
    "LettingGo": {"stream_speed": "m/s", "rotor_speed": "rad/s", "inertia": "kg m2", "braked_from": "rad/s"},
    "FreeRunning": {
        "stream_speed": "m/s",
        "rotor_speed": "rad/s",
        "tip_speed": "m/s",
        "strike_speed": "m/s",
        "thrust": "N",
        "roll_moment": "N m",
        "open_voltage": "V",
    },
    "LossOfLoad": {
        "runaway_speed": "rad/s",
        "overspeed": "rad/s",
        "time_to_overspeed": "s",
        "time_to_runaway": "s",
        "time": "s",
        "rotor_speed": "rad/s",
    },
    "BrakeStop": {"stuck_at": "rad/s", "time": "s", "turns": "-", "energy": "J"},
    "DriveParts": {"torque": "N m"},
    "DriveMass": {"torque": "N m", "ratio": "-", "mass": "kg", "cost": "USD"},
}
"""The cost of a kilogram is packaged in one currency, whatever the scheme's."""
