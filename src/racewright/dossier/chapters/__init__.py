"""The dossier's chapters, in the order of the water: each makes blocks from findings."""
