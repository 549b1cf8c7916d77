"""Tethers, anchors, strikes and debris."""
