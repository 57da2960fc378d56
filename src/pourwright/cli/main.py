"""Start a command and turn what goes wrong into one line and an exit status."""

import contextlib
import errno
import io
import os
import sys
from collections.abc import Sequence
from pathlib import Path

import click

from pourwright.cli.commands import pourwright
from pourwright.cli.stopping import asked_to_stop, listen
from pourwright.foundation.errors import Cancelled, UserError

STOPPED = 130
HALTED = "stopped; nothing half-written was left"
FAILED = 1
_OUT_OF_ROOM = (errno.ENOSPC, errno.EDQUOT)


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the command line and leave with its exit status.

    Parameters
    ----------
    arguments : sequence of str, optional
        What stands after the program's name; by default what the process was started with.
    """
    _lend_streams()
    given = list(sys.argv[1:] if arguments is None else arguments)
    if arguments is None:
        listen()
    status = _status(given or ["--help"])
    sys.exit(_flushed(status))


def _lend_streams() -> None:
    """Give a stream that the caller has closed a place to go, so that nothing below must ask."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            setattr(sys, name, Path(os.devnull).open(mode, encoding="utf8"))  # noqa: SIM115 - until the end
    for stream in (sys.stdout, sys.stderr):
        # a terminal without a degree sign shows a question mark in its place
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")


def _run(arguments: list[str]) -> object:
    """Run a command; one that was asked to stop ends stopped, whatever it dies of."""
    try:
        return pourwright.main(arguments, prog_name="pourwright", standalone_mode=False)
    except (UserError, click.ClickException, OSError):
        raise
    except Exception as error:
        # a compiler that is interrupted in its midst dies of something of its own
        if asked_to_stop():
            raise Cancelled from error
        raise


def _status(arguments: list[str]) -> int:
    try:
        status = _run(arguments)
    except UserError as error:
        return _refuse(str(error), error.exit_status)
    except click.ClickException as error:
        return _refuse(
            f"{_name(error)}: {error.format_message().rstrip('.')}; do: see {_name(error)} --help",
            UserError.exit_status,
        )
    except (Cancelled, KeyboardInterrupt, click.Abort):
        return _refuse(HALTED, STOPPED)
    except SystemExit:
        # click leaves by itself only where the reader has closed the pipe
        return _leave_the_pipe()
    except (OSError, MemoryError) as error:
        return _refuse_by_system(error)
    return int(status) if isinstance(status, int) else 0


def _refuse_by_system(error: OSError | MemoryError) -> int:
    """Tell what the operating system refused: the maker can mend a full disk, not our code."""
    if isinstance(error, MemoryError):
        return _refuse("the memory of this computer is not enough; do: close other programs", FAILED)
    if isinstance(error, BrokenPipeError):
        return _leave_the_pipe()
    if error.errno in _OUT_OF_ROOM:
        place = error.filename or "output"
        return _refuse(f"{place}: {error.strerror}; do: make room and try again", UserError.exit_status)
    if error.filename is None:
        raise error
    return _refuse(f"{error.filename}: {error.strerror}", UserError.exit_status)


def _flushed(status: int) -> int:
    """Write out what is still held back, while a failure can still be told."""
    try:
        sys.stdout.flush()
    except OSError as error:
        told = status or _refuse_by_system(error)
        _drop_output()
        return told
    return status


def _leave_the_pipe() -> int:
    """End quietly where the reader has read enough, as in ``| head``."""
    _drop_output()
    return 0


def _drop_output() -> None:
    """Let go of what can no longer be written."""
    # Python flushes once more on leaving, which would fail again and change the exit status
    with contextlib.suppress(OSError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _name(error: click.ClickException) -> str:
    context = getattr(error, "ctx", None)
    return context.command_path if isinstance(context, click.Context) else "pourwright"


def _refuse(line: str, status: int) -> int:
    # where nobody can be told, the exit status still tells
    with contextlib.suppress(OSError, AttributeError):
        click.echo(" ".join(line.split()), err=True)
    return status
