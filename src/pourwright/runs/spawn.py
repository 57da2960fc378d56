"""Starting this same program anew, and its first steps there."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from typing import IO

from pourwright.foundation.errors import UserError
from pourwright.runs.group import KILL, group_to_start

NICENESS = 10
_ONE_THREAD = (
    "NUMBA_NUM_THREADS", "OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS",
    "VECLIB_MAXIMUM_THREADS",
)  # fmt: skip


def spawn(code: str, *, one_thread: bool = True, stderr: int | None = None) -> subprocess.Popen[bytes]:
    """Start a process with lines in and out.

    Parameters
    ----------
    code : str
        What it does.
    one_thread : bool
        Whether its kernels have one thread each, as the others work too.
    stderr : int, optional
        Where its complaints go; else to those of this process.

    Returns
    -------
    Popen

    Raises
    ------
    OSError
        Where the system starts none.
    """
    path = os.pathsep.join(entry or os.getcwd() for entry in sys.path)  # noqa: PTH109 - as Python writes it
    threads = dict.fromkeys(_ONE_THREAD, "1") if one_thread else {}
    return subprocess.Popen(  # noqa: S603 - this same program
        # -P: the folder one happens to stand in is no place for modules
        [sys.executable, "-P", "-c", code],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=stderr,
        env=os.environ | threads | {"PYTHONPATH": path},
        process_group=group_to_start(),
    )


def no_process(error: OSError, todo: str) -> UserError:
    """Say that the system starts no further process.

    Parameters
    ----------
    error : OSError
        What it said.
    todo : str
        What to do.

    Returns
    -------
    UserError
    """
    return UserError(f"no further process can be started: {error.strerror}", todo=todo)


def death(status: int, todo: str) -> UserError:
    """Say why a process has ended without an answer.

    Parameters
    ----------
    status : int
        Its exit status.
    todo : str
        What to do.

    Returns
    -------
    UserError
    """
    if status == -KILL:
        what = "the system has ended a process of this run; most likely the memory was not enough"
    else:
        what = f"a process of this run has ended by itself, with status {status}"
    return UserError(what, todo=todo)


def stand_back() -> None:
    """Let whoever sits at the computer go first, and leave Ctrl-C to who started this process."""
    if hasattr(os, "nice"):
        os.nice(max(0, NICENESS - os.nice(0)))
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def lines_taken() -> tuple[IO[bytes], IO[bytes]]:
    """Take standard input and output for this process's own messages; prints no longer reach them.

    Returns
    -------
    tuple of binary file
        In and out.
    """
    source, sink = os.dup(0), os.dup(1)
    nothing = os.open(os.devnull, os.O_RDONLY)
    os.dup2(nothing, 0)
    os.dup2(2, 1)
    sys.stdin = None
    return os.fdopen(source, "rb"), os.fdopen(sink, "wb")
