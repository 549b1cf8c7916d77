"""The scheme file while it is worked on: edits with undo, a draft that outlives the page, a save that is whole."""
