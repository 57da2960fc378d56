"""What the system says of processes."""

import os
import subprocess
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

PATIENCE = 60.0


def wait_until(reached: Callable[[], bool]) -> None:
    """Wait, for as long as even a busy machine may need, then fail."""
    end = time.monotonic() + PATIENCE
    while not reached():
        assert time.monotonic() < end, "it never came to that"
        time.sleep(0.02)


@contextmanager
def ended(process: subprocess.Popen[Any]) -> Iterator[None]:
    """See to it that a process ends with the block, also where the test fails."""
    try:
        yield
    finally:
        process.kill()
        process.communicate()


def ids_in(folder: Path) -> list[int]:
    """Processes that have written their numbers there."""
    return [int(one) for path in folder.glob("*.ids") for one in path.read_text().split()]


def _lives(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    try:
        # one that has ended and whose end nobody has asked for yet
        state = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0]
    except OSError:
        return False
    return state != "Z"


def gone(processes: Iterable[int]) -> bool:
    """Whether none of them lives."""
    return not any(_lives(one) for one in processes)
