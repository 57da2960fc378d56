"""Work for processes: they can import it, because it stands in a file of its own."""

import os
import signal
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from pourwright.foundation.errors import Cancelled, UserError
from pourwright.foundation.progress import Progress


@dataclass(frozen=True, eq=False)
class Ballast:
    """Something large that many items hold."""

    numbers: np.ndarray


@dataclass(frozen=True)
class Load:
    """One item."""

    ballast: Ballast
    factor: float


def square(number: float) -> float:
    return number * number


def whose(_number: int) -> tuple[int, int, str, int]:
    """Process, its group, what it was told of threads, its niceness."""
    time.sleep(0.02)
    return os.getpid(), os.getpgrp(), os.environ["NUMBA_NUM_THREADS"], os.nice(0)


def weigh(load: Load) -> tuple[float, Ballast, int]:
    return load.factor * float(load.ballast.numbers.sum()), load.ballast, id(load.ballast)


def bound(ballast: Ballast, factor: float) -> float:
    return factor * float(ballast.numbers.sum())


def refuse_odd(number: int) -> int:
    if number % 2:
        raise UserError(f"{number} is odd", where="item", allowed="even numbers", todo="double it")
    return number


class OddError(Exception):
    """Wants two arguments and keeps one, and something besides."""

    def __init__(self, number: int, reason: object) -> None:
        super().__init__(f"number {number}")
        self.reason = reason


def fail_oddly(number: int) -> int:
    raise OddError(number, {"because": number})


def fail_with_what_cannot_travel(number: int) -> int:
    raise OddError(number, lambda: number)


def cancelled(_number: int) -> int:
    raise Cancelled


def die(number: int) -> int:
    """What the system does to a process that takes too much memory."""
    if number == 2:
        os.kill(os.getpid(), signal.SIGKILL)
    return number


def leave(_number: int) -> int:
    os._exit(7)


def chatter(number: int) -> int:
    sys.stdout.write("what is printed must not spoil the line between the processes\n")
    sys.stdout.flush()
    return number


def in_quarters(number: int, progress: Progress) -> int:
    for quarter in range(5):
        progress.step("quarter", quarter, 4)
    return number


def mark(folder: Path, name: object) -> None:
    """Leave a file that says that this was done, by which process."""
    (folder / f"{name}-{os.getpid()}-{time.monotonic_ns()}").touch()


def marked_square(folder: Path, number: int) -> int:
    mark(folder, number)
    return number * number


def stuck(folder: Path, number: int) -> int:
    """Never ends, nor does the process it starts."""
    below = subprocess.Popen([sys.executable, "-c", "import time; time.sleep(600)"])
    (folder / f"{number}.part").write_text(f"{os.getpid()} {below.pid}")
    (folder / f"{number}.part").rename(folder / f"{number}.ids")
    below.wait()
    return number


def dawdle(folder: Path, number: int) -> int:
    """Is done at once for the first two numbers; the others wait until they are stopped."""
    mark(folder, number)
    while number >= 2:
        time.sleep(0.05)
    return number * number


def gated_square(folder: Path, number: int) -> int:
    """Numbers from 5 on wait until there is a gate."""
    mark(folder, number)
    while number >= 5 and not (folder / "999-gate").exists():
        time.sleep(0.02)
    return number * number
