"""The pages of the desk, one file each; see `desk/seam.py` and CONTRIBUTING.md."""
