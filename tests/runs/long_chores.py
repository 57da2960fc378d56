"""Long work for a run behind the page."""

import functools
import os
import signal
import time
from pathlib import Path

from pourwright.foundation.progress import Progress
from pourwright.runs import Crew, do_apart
from tests.runs.chores import die, stuck, whose


def told_twice(number: int, progress: Progress) -> int:
    progress.step("first", 0, 2)
    progress.step("second", 1, 2)
    return number * number


def self_known(_number: int) -> tuple[int, int, int, str]:
    """Process, group, niceness, threads."""
    return os.getpid(), os.getpgrp(), os.nice(0), os.environ["NUMBA_NUM_THREADS"]


def crew_known(_number: int) -> list[tuple[int, int, str, int]]:
    """What the workers of a crew know of themselves."""
    with Crew(2) as crew:
        return crew.map(whose, range(6))


def crew_stuck(folder: Path) -> None:
    """A crew of two that never ends, nor do the processes they start; this process is told of too."""
    (folder / "head.ids").write_text(str(os.getpid()))
    with Crew(2) as crew:
        crew.map(functools.partial(stuck, folder), range(5))


def crew_dies(_folder: Path) -> list[int]:
    with Crew(2) as crew:
        return crew.map(die, range(5))


def apart_stuck(folder: Path) -> None:
    """A crew whose workers wait for a process each that they have started apart."""
    with Crew(2) as crew:
        crew.map(functools.partial(_apart_for_ever, folder), range(2))


def _apart_for_ever(folder: Path, number: int) -> None:
    do_apart(_asleep, folder, os.getpid(), number, seconds=600)


def _asleep(folder: Path, above: int, number: int) -> None:
    (folder / f"{number}.part").write_text(f"{above} {os.getpid()}")
    (folder / f"{number}.part").rename(folder / f"{number}.ids")
    time.sleep(600)


def deaf(folder: Path) -> None:
    """Busy in a kernel that lets no other thread of this process do anything."""
    from numba import njit

    endless = njit(_endless)
    endless(0)
    (folder / "kernel.ids").write_text(str(os.getpid()))
    endless(1)


def _endless(go_on: int) -> int:
    count = 0
    while go_on:
        count = (count + 1) % 1000
    return count


def busy(folder: Path) -> None:
    """Busy in Python, and deaf to being asked nicely."""
    for number in (signal.SIGTERM, signal.SIGINT, signal.SIGHUP):
        signal.signal(number, signal.SIG_IGN)
    (folder / "loop.ids").write_text(str(os.getpid()))
    while True:
        pass
