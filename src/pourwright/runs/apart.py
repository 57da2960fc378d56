"""Do one thing in a process of its own, which may break down, hang or swell without harm to this one."""

from __future__ import annotations

import contextlib
import os
import pickle
import subprocess
import sys
from collections.abc import Callable
from typing import Any, TypeVar

from pourwright.runs.group import end
from pourwright.runs.spawn import spawn

T = TypeVar("T")
MEMORY = 4_000_000_000
"""Bytes that the process may ask for."""
_START = "from pourwright.runs.apart import main; main()"


def do_apart(function: Callable[..., T], *arguments: object, seconds: float, memory: int = MEMORY) -> T:
    """Do something that foreign code does, which nobody here can trust with a broken file.

    Parameters
    ----------
    function : callable
        Of a module, so that another process finds it by its name.
    *arguments : object
        What it is given; anything that can be pickled.
    seconds : float
        When the process is ended [s].
    memory : int
        Bytes that it may ask for, where the system can hold it to that.

    Returns
    -------
    object
        The function's answer.

    Raises
    ------
    TimeoutError
        Where it took longer.
    ChildProcessError
        Where the process broke down.
    Exception
        Whatever the function raised, MemoryError above all.

    Examples
    --------
    >>> import operator
    >>> do_apart(operator.add, 2, 3, seconds=30)
    5
    """
    order = pickle.dumps((memory, function, arguments))
    with spawn(_START, one_thread=False, stderr=subprocess.DEVNULL) as process:
        try:
            answer, _ = process.communicate(order, timeout=seconds)
        except subprocess.TimeoutExpired:
            raise TimeoutError(seconds) from None
        finally:
            if process.poll() is None:
                end(process)
    if process.returncode or not answer:
        raise ChildProcessError(process.returncode)
    succeeded, value = pickle.loads(answer)  # noqa: S301 - written by this same program
    if not succeeded:
        raise value
    return value  # type: ignore[no-any-return]


def main() -> None:
    """Do what standard input says; the answer goes to standard output, which prints no longer reach."""
    sink = os.dup(1)
    os.dup2(2, 1)
    memory, function, arguments = pickle.load(sys.stdin.buffer)  # noqa: S301 - written by this same program
    _limit(memory)
    answer: tuple[bool, Any]
    try:
        answer = True, function(*arguments)
    except Exception as error:  # noqa: BLE001 - raised again where the work was ordered
        answer = False, error
    try:
        content = pickle.dumps(answer)
    except Exception as error:  # noqa: BLE001 - any answer may hold what cannot travel
        content = pickle.dumps((False, RuntimeError(str(error))))
    with os.fdopen(sink, "wb") as answers:
        answers.write(content)


def _limit(memory: int) -> None:
    """Hold this process to its memory, where the system can."""
    try:
        import resource  # noqa: PLC0415 - not on every system
    except ImportError:
        return
    for kind, most in ((resource.RLIMIT_AS, memory), (resource.RLIMIT_CORE, 0)):
        with contextlib.suppress(ValueError, OSError):
            resource.setrlimit(kind, (most, resource.getrlimit(kind)[1]))
