"""Runs the command line, as `python -m netaudit` and as the command `netaudit`."""

import sys


def run() -> None:
    """Run the command line; Ctrl-C ends it without a word from the first import on."""
    try:
        from netaudit.cli.main import main  # noqa: PLC0415 - what it imports can be interrupted too

        main()
    except KeyboardInterrupt:
        sys.exit(130)


if __name__ == "__main__":
    run()
