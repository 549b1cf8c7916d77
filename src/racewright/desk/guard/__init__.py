"""Who may ask the desk what: host and origin, token, sizes, paths, and the headers of every answer."""
