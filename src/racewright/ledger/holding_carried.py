"""What the reader is told beside numbers of a holding that come from its statics."""

from __future__ import annotations

from racewright.holding.safety import EQUILIBRIUM_BASIS, POSE_CAUTION, TENSION_CAUTION, computed

POSE = computed(POSE_CAUTION)
"""Beside pose, cover and clearance."""
TENSION = computed(TENSION_CAUTION)
"""Beside slow tensions and what follows from them."""
SEARCHED = computed(POSE_CAUTION, f"least size found by search; {EQUILIBRIUM_BASIS}")
"""Beside proposed buoyancy and bridle."""
STIFFNESS = computed(
    TENSION_CAUTION,
    f"stiffness of all lines about the machine's rest on load, its even part, what drives a motion on left out; "
    f"{EQUILIBRIUM_BASIS}",
)
"""Beside what a strike's tether is taken to be."""
