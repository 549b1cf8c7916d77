"""`python -m racewright`."""

from racewright.cli.main import main

main()
