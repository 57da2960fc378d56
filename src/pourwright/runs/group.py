"""Which processes end together: each worker with what it starts, or all those of a run behind the page."""

from __future__ import annotations

import contextlib
import os
import signal
import subprocess
import sys
import threading
import time
from pathlib import Path
from typing import IO

_RUN = "POURWRIGHT_RUN"
_LOOK = 0.01
KILL = getattr(signal, "SIGKILL", signal.SIGTERM)


def found_a_run() -> None:
    """Make this process the head of a run: whatever it starts belongs to its group."""
    if hasattr(os, "getpgrp"):
        os.environ[_RUN] = str(os.getpgrp())


def in_a_run() -> bool:
    """Say whether this process belongs to a run, which is ended as a whole.

    Returns
    -------
    bool
    """
    return hasattr(os, "getpgrp") and os.environ.get(_RUN) == str(os.getpgrp())


def group_to_start() -> int | None:
    """Say which group a new process is started in.

    Returns
    -------
    int or None
        0 for one of its own; None for that of this process.
    """
    return 0 if hasattr(os, "setpgid") and not in_a_run() else None


def guard(line: IO[bytes], others: IO[bytes]) -> None:
    """Leave a small process behind that ends the whole run as soon as a line closes.

    A thread of this process would not do: some kernels let no other thread have its turn.

    Parameters
    ----------
    line : binary file
        From the process that ordered the run; nothing more is to come through it.
    others : binary file
        The line back, which only this process keeps open.
    """
    if not hasattr(os, "fork"):
        threading.Thread(target=_wait_for_the_end, args=(line,), daemon=True).start()
    elif os.fork() == 0:
        others.close()
        _wait_for_the_end(line)


def _wait_for_the_end(line: IO[bytes]) -> None:
    while line.read(1):
        pass
    if in_a_run():
        os.killpg(os.getpgrp(), signal.SIGKILL)
    os._exit(0)


def leave() -> None:
    """End at once, with whatever this process has started in its own group."""
    if hasattr(os, "killpg") and os.getpgrp() == os.getpid():
        os.killpg(os.getpgrp(), signal.SIGKILL)
    os._exit(0)


def end(process: subprocess.Popen[bytes]) -> None:
    """End a process that was started in `group_to_start`, with its group where it has one.

    Parameters
    ----------
    process : Popen
        Running or ended.
    """
    with contextlib.suppress(ProcessLookupError, PermissionError):
        if process.poll() is None and group_to_start() == 0:
            os.killpg(process.pid, signal.SIGKILL)
    process.kill()


def end_group(group: int, patience: float) -> bool:
    """End all processes of a group, also where its head is gone, and wait for that.

    Parameters
    ----------
    group : int
        Number of its head; not that of this process.
    patience : float
        How long to wait [s].

    Returns
    -------
    bool
        Whether none lives any more.
    """
    if not hasattr(os, "killpg"):
        return True
    until = time.monotonic() + patience
    with contextlib.suppress(ProcessLookupError, PermissionError):
        os.killpg(group, signal.SIGKILL)
    while living := _lives(group):
        if time.monotonic() > until:
            break
        time.sleep(_LOOK)
    return not living


def _lives(group: int) -> bool:
    """Whether a group has members; those that ended and were not asked for yet do not count."""
    if sys.platform != "linux":
        with contextlib.suppress(ProcessLookupError, PermissionError):
            os.killpg(group, 0)
            return True
        return False
    return any(_member(stat, group) for stat in Path("/proc").glob("[0-9]*/stat"))


def _member(stat: Path, group: int) -> bool:
    try:
        state, _, its_group, *_ = stat.read_text("latin1").rpartition(")")[2].split()
    except (OSError, ValueError):
        return False
    return int(its_group) == group and state not in "ZX"
