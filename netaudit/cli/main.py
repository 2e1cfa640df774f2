"""The netaudit command: its subcommands, each loaded when it is called, and the one place that ends the program."""

from __future__ import annotations

import gc
import os
import sys
from importlib import import_module

import click

from netaudit.cli.output import give_up_output
from netaudit.errors import NetauditError

COMMANDS = {
    "check": "Judge a plan: every path from every edit station to its storage.",
    "probe": "Ask which port really carries a storage's traffic.",
    "cables": "List what to order, cut, label, plug and tick off.",
    "limits": "Show the published limits, each with its source.",
    "explain": "Tell what a rule looks for, show it strike, and cure it.",
    "schema": "Print the JSON Schema of a plan or of a report.",
    "new": "Ask a few questions about a room, write a plan of it.",
}
"""Each command with what it does; its file in this folder bears its name."""

INTERRUPTED = 130
"""Exit code after Ctrl-C."""


class LazyGroup(click.Group):
    """A group that knows its commands by name and imports one only to run it."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's signature
        """The commands in the order of the job."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002 - as above
        """Import a command."""
        if cmd_name not in COMMANDS:
            return None
        command = getattr(import_module(f"netaudit.cli.{cmd_name}"), cmd_name)
        return command if isinstance(command, click.Command) else None

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002 - as above
        """List the commands without importing them."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.group(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="netaudit", message="%(prog)s %(version)s")
def netaudit() -> None:
    """Judge the network of a small post-production room: before it is bought, and at the desk.

    Exit codes: 0 nothing failed, 1 something fails, 2 wrong input or call, 3 this machine could not be asked,
    130 Ctrl-C.
    """


def main() -> None:
    """Run the command line and end the program with its exit code.

    The cycle collector stays off: a run is short, its values hold no cycles, and walking them costs a third of it.
    """
    gc.disable()
    sys.stdout = sys.stdout or open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115 - closed with the program
    sys.stderr = sys.stderr or sys.stdout
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    sys.exit(_run())


def _run() -> int:
    try:
        code = netaudit.main(prog_name="netaudit", standalone_mode=False)
        sys.stdout.flush()
    except click.ClickException as error:
        error.show()
        return 2
    except NetauditError as error:
        click.echo(str(error), err=True)
        return error.exit_code
    except (KeyboardInterrupt, click.Abort):
        return INTERRUPTED
    except BrokenPipeError:
        give_up_output()
        return 0
    except OSError as error:
        give_up_output()
        click.echo(f"the answer cannot be written: {error.strerror or error}", err=True)
        return 2
    return code if isinstance(code, int) else 0
