"""Readers of the user's data files."""
