"""Start a command and turn what goes wrong into one line and an exit status."""

import sys
from collections.abc import Sequence

import click

from pourwright.cli.commands import pourwright
from pourwright.foundation.errors import Cancelled, UserError

STOPPED = 130


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the command line and leave with its exit status.

    Parameters
    ----------
    arguments : sequence of str, optional
        What stands after the program's name; by default what the process was started with.
    """
    given = list(sys.argv[1:] if arguments is None else arguments)
    sys.exit(_status(given or ["--help"]))


def _status(arguments: list[str]) -> int:
    try:
        status = pourwright.main(arguments, prog_name="pourwright", standalone_mode=False)
    except UserError as error:
        return _refuse(str(error), error.exit_status)
    except click.ClickException as error:
        return _refuse(
            f"{_name(error)}: {error.format_message().rstrip('.')}; do: see {_name(error)} --help",
            UserError.exit_status,
        )
    except (Cancelled, KeyboardInterrupt, click.Abort):
        return _refuse("stopped; nothing half-written was left", STOPPED)
    except BrokenPipeError:
        sys.stderr.close()
        return 0
    except OSError as error:
        if error.filename is None:
            raise
        return _refuse(f"{error.filename}: {error.strerror}", UserError.exit_status)
    return status if isinstance(status, int) else 0


def _name(error: click.ClickException) -> str:
    context = getattr(error, "ctx", None)
    return context.command_path if isinstance(context, click.Context) else "pourwright"


def _refuse(line: str, status: int) -> int:
    click.echo(" ".join(line.split()), err=True)
    return status
