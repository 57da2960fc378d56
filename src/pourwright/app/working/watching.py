"""What has changed of a job since one last looked: its file, its plan, its runs."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pourwright.app.working.answers import digest_of
from pourwright.app.working.standing import plan_place_of
from pourwright.app.working.told import runs_told
from pourwright.app.working.works import Works

Event = tuple[str, Any]
Stamp = tuple[int, int, int] | None


class Watch:
    """Looks at one variant of a job again and again.

    Parameters
    ----------
    works : Works
        Of this server.
    file : Path
        The job file.
    variant : str or None
        Whose plan is looked at; else the first.
    """

    def __init__(self, works: Works, file: Path, variant: str | None) -> None:
        self._works, self._file, self._variant = works, file, variant
        self._count = -1
        self._run: dict[str, Any] | None = None
        self._digest = digest_of(file)
        self._place = plan_place_of(file, variant)
        self._stamps = self._stamps_now()

    def first(self) -> dict[str, Any]:
        """Say how things stand when one begins to look."""
        self._run = self._latest()
        return {"file": self._digest, "run": self._run}

    def stirred(self) -> bool:
        """Say at once, without waiting for anybody, whether there may be news."""
        return self._count != self._works.count or self._stamps != self._stamps_now()

    def news(self) -> list[Event]:
        """Give what has changed since the last time."""
        before, self._stamps = self._stamps, self._stamps_now()
        return [*self._run_news(), *self._file_news(before), *self._plan_news(before)]

    def _stamps_now(self) -> tuple[Stamp, Stamp]:
        return _stamp(self._file), _stamp(self._place)

    def _run_news(self) -> Iterator[Event]:
        if self._count == self._works.count:
            return
        self._count = self._works.count
        latest = self._latest()
        if latest != self._run:
            self._run = latest
            yield "run", latest

    def _file_news(self, before: tuple[Stamp, Stamp]) -> Iterator[Event]:
        if before[0] == self._stamps[0]:
            return
        digest = digest_of(self._file)
        if digest != self._digest:
            self._digest = digest
            yield "file", {"file": digest}
        # another name of the variant has its plan elsewhere
        self._place = plan_place_of(self._file, self._variant)
        self._stamps = self._stamps_now()

    def _plan_news(self, before: tuple[Stamp, Stamp]) -> Iterator[Event]:
        if before[1] != self._stamps[1]:
            yield "plan", {"there": self._stamps[1] is not None}

    def _latest(self) -> dict[str, Any] | None:
        """Of all runs the one a person wants to see: what goes on, heavy work first, else the latest."""
        runs = runs_told(self._works, self._file)
        first = max(runs, key=lambda run: (run.live, run.live and run.heavy), default=None)
        return None if first is None else first.model_dump(mode="json")


def _stamp(file: Path) -> Stamp:
    try:
        about = file.stat()
    except OSError:
        return None
    return about.st_mtime_ns, about.st_size, about.st_ino
