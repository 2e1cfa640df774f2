"""Runs the command line as `python -m netaudit`."""

from netaudit.cli.main import main

main()
