"""Progress of long work on stderr: a bar where somebody watches, a line per stage where nobody does."""

import contextlib
import sys
from collections.abc import Iterator

from rich.console import Console
from rich.progress import BarColumn, Progress, TaskID, TextColumn, TimeElapsedColumn

from pourwright import compiled_before
from pourwright.cli.stopping import stop_if_asked


class Bars:
    """One bar per stage.

    Parameters
    ----------
    progress : rich.progress.Progress
        What draws them.
    """

    def __init__(self, progress: Progress) -> None:
        self._progress = progress
        self._stages: dict[str, TaskID] = {}

    def step(self, stage: str, done: float, total: float) -> None:
        """Move the bar of a stage."""
        stop_if_asked()
        if stage not in self._stages:
            self._stages[stage] = self._progress.add_task(stage)
        self._progress.update(self._stages[stage], completed=done, total=total)


class Lines:
    """One line per stage, when it begins."""

    def __init__(self) -> None:
        self._begun: set[str] = set()

    def step(self, stage: str, done: float, total: float) -> None:  # noqa: ARG002 - the protocol's names
        """Name a stage once."""
        stop_if_asked()
        if stage not in self._begun:
            self._begun.add(stage)
            sys.stderr.write(f"{stage} ...\n")
            sys.stderr.flush()


def warn_of_first_run() -> None:
    """Tell whoever waits why the first run takes long."""
    if not compiled_before():
        sys.stderr.write(
            "first run on this computer: compiling once, a minute or two; later runs are quick\n"
        )
        sys.stderr.flush()


@contextlib.contextmanager
def meter() -> Iterator[Bars | Lines]:
    """Show progress while the block runs.

    Yields
    ------
    Bars or Lines
        What app reports its steps to.
    """
    warn_of_first_run()
    console = Console(stderr=True)
    if not console.is_terminal:
        yield Lines()
        return
    columns = (TextColumn("{task.description}"), BarColumn(bar_width=30), TimeElapsedColumn())
    with Progress(*columns, console=console, transient=True) as progress:
        yield Bars(progress)
