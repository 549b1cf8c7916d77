"""Holding the machine where the water wants to take it away."""
