"""The desk: the whole job in a browser, on the user's own machine. Nothing but the command line imports it."""
