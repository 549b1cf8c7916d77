"""Proofs: for each part a module with LINES, one per acceptance line."""
