"""The dossier's drawings: each takes data and a width, and returns a matplotlib Figure."""
