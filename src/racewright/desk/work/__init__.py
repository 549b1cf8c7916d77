"""Work that takes longer than a blink: worker processes, progress, cancel, and the newest request wins."""
