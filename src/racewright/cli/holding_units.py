"""SI units of the fields of a holding and its strikes."""

from __future__ import annotations


def _all(*groups: tuple[str, str]) -> dict[str, str]:
    """Unit by field, from units with the fields that have them."""
    return {field: unit for unit, names in groups for field in names.split()}


HOLDING_UNITS: dict[str, dict[str, str]] = {
    "AnchorCase": _all(("-", "use use_low")),
    "AnchorCheck": _all(("-", "use")),
    "AnchorFound": _all(("N", "horizontal vertical")),
    "AnchorHolding": _all(("N", "ultimate")),
    "AnchorLimit": _all(("N", "load")),
    "AnchorLoad": _all(("N", "horizontal vertical")),
    "Blow": _all(("N", "force"), ("s", "half_period duration")),
    "ContactStiffness": _all(("N/m", "value")),
    "DebrisHeld": _all(("m/s", "stream_speed")),
    "DebrisLoad": _all(("N", "force"), ("m", "point"), ("N m", "moment"), ("m2", "drag_area area")),
    "Extremes": _all(
        ("m", "cover bed_clearance cover_wanted bed_clearance_wanted lowest_water"), ("rad", "roll roll_wanted")
    ),
    "FactoredLoad": _all(("N", "horizontal vertical total")),
    "FirstBlow": _all(
        ("kg", "effective_mass"),
        ("m/s", "closing_speed"),
        ("J", "work lost"),
        ("N s", "impulse slip_impulse"),
        ("m", "next_gap"),
        ("rad", "lean friction_angle"),
    ),
    "HeldRow": _all(("N s", "impulse"), ("J", "taken_up"), ("s", "time_to_clear")),
    "HoldingHelp": _all(("m/s", "stream_speed"), ("N", "tension wanted_strength")),
    "LineChoice": _all(
        ("m", "diameter stretch"),
        ("N", "strength wanted_strength new_strength submerged_weight stiffness"),
        ("-", "utilisation"),
        ("kg", "mass"),
        ("J", "stored_energy"),
        ("N/m", "stream_stiffness stream_stiffness_low stream_stiffness_high"),
    ),
    "LowWater": _all(("m", "depth cover bed_clearance least_depth aground_at")),
    "OutcomeTold": _all(("-", "friction touches"), ("s", "time_to_clear touch_time"), ("m", "shift"), ("rad", "yaw")),
    "Poses": _all(
        ("m", "depth height knock_down offset cover bed_clearance"),
        ("m/s", "stream_speed"),
        ("rad", "roll pitch yaw"),
        ("N", "tension uplift"),
        ("-", "utilisation"),
    ),
    "ProofLoad": _all(("N", "load"), ("s", "hold_time"), ("-", "ratio")),
    "Release": _all(("m/s", "parting_speed drift_speed"), ("m", "drift rest"), ("s", "drift_time")),
    "RequiredHolding": _all(("N", "horizontal vertical total")),
    "SafetyFactor": _all(("-", "factor dynamic_factor share practice_range")),
    "SafetyFigure": _all(("SI", "low value high")),
    "SizeProposal": _all(("SI", "now proposed")),
    "StateWorst": _all(("m/s", "stream_speed"), ("N", "tension wanted_strength"), ("-", "factor use not_settled")),
    "StiffnessTrade": _all(("m", "travel"), ("N/m", "stiffness")),
    "StrengthFactor": _all(("-", "factor")),
    "StrikeTold": _all(
        ("kg", "log_mass machine_mass"),
        ("m/s", "stream_speed"),
        ("N/m", "tether_stiffness"),
        ("m", "depth over"),
        ("N", "pretension capacity"),
        ("s", "slow_time time_per_friction"),
    ),
    "Utilisation": _all(("-", "factor value"), ("N", "wanted_strength")),
    "WatchCircle": _all(("rad", "heading yaw"), ("m/s", "stream_speed"), ("m", "x y height radius swept_radius")),
    "WorstLine": _all(("m/s", "stream_speed"), ("N", "tension strength uplift"), ("-", "left_out")),
    "YearTold": _all(
        ("1/yr", "encounters"),
        ("N", "level"),
        ("-", "first_low first_high first_high_upper slow slow_low slow_high parting parting_low parting_high"),
        ("-", "strikes confidence"),
    ),
}
