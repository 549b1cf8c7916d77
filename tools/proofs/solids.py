"""Geometry out: fifty random machines through their files, read back by an independent library."""

from __future__ import annotations

from tests.records.judged_solids import judged

from tools.proofs.line import Line, Measured, run_tests

MACHINES = 50
FIRST = 100
"""First seed; the suite takes others."""
WORST = 2e-3


def solids() -> Measured:
    """Parts and whole of each machine: closed, volume, one handle a vane, no overlaps; then the suite's checks."""
    found = [judged(seed) for seed in range(FIRST, FIRST + MACHINES)]
    faults = [f"machine {one.seed}: {fault}" for one in found for fault in one.faults]
    worst = {part: max(one.off[part] for one in found) for part in found[0].off}
    passed, failed, _notes = run_tests(
        "tests/machine/test_solids.py", "tests/records/test_solid_files.py", "tests/cli/test_export.py"
    )
    shown = ", ".join(f"{part} {100.0 * off:.3f} %" for part, off in worst.items())
    sound = MACHINES - len({one.seed for one in found if one.faults})
    text = (
        f"{sound} of {MACHINES} machines closed in every part and "
        f"as a whole; volumes within {shown}; {passed} checks pass"
    )
    if failed:
        faults.append(f"{len(failed)} checks fail: {', '.join(failed[:4])}")
    return Measured("; ".join([text, *faults[:4]]), not faults and max(worst.values()) <= WORST and passed > 0)


SOLID_LINES = [
    Line(
        "grow-2",
        "watertight STL and GLB of duct, hub, vanes and blades at any scale, true normals, chosen tolerance; section "
        "coordinates as CSV; volumes within 0.2 % of the parametric solids; each part and the fused whole watertight "
        "for 50 random valid machines",
        solids,
        8,
    ),
]
