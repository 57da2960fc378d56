"""All long work of a server: begun, waiting in line, followed, cancelled, remembered."""

from __future__ import annotations

import contextlib
import secrets
import threading
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType
from typing import Any

from pourwright.app.job_texts import keep_text
from pourwright.app.plan_files import PLAN
from pourwright.app.working.kinds import KINDS, Kind
from pourwright.app.working.ledger import Ledger, ledger_of
from pourwright.app.working.orders import Order, options_from, order_of
from pourwright.app.working.state import RunState, now
from pourwright.foundation.errors import Cancelled, ConflictError, NotThereError, UserError
from pourwright.foundation.files import mend_place
from pourwright.runs import Background, Outcome, only_one

_NOTHING: Mapping[str, Any] = MappingProxyType({})


@dataclass
class _Run:
    """A run that goes on or waits."""

    state: RunState
    kind: Kind
    order: Order
    ledger: Ledger
    background: Background | None = None


class Works:
    """The long work of one server.

    Parameters
    ----------
    kinds : mapping
        What can be begun, by name.
    """

    def __init__(self, kinds: Mapping[str, Kind] = KINDS) -> None:
        self._kinds = kinds
        self._lock = threading.RLock()
        self._ledgers: dict[Path, Ledger] = {}
        self._live: list[_Run] = []
        self._count = 0
        self._closed = False

    @property
    def kinds(self) -> tuple[Kind, ...]:
        """What can be begun."""
        return tuple(self._kinds.values())

    @property
    def count(self) -> int:
        """Grows with every change of any run."""
        return self._count

    def begin(
        self, file: Path, what: str, variant: str | None = None, options: Mapping[str, Any] = _NOTHING
    ) -> RunState:
        """Begin long work for a job, or put it in line.

        Parameters
        ----------
        file : Path
            The job file.
        what : str
            Kind of the work.
        variant : str, optional
            The variant it is for; else the job's first.
        options : mapping
            As the kind allows.

        Returns
        -------
        RunState

        Raises
        ------
        ConflictError
            Where work for this job goes on already.
        UserError
            For work that cannot be done, and a job file with an error.
        """
        kind = self._kind(what)
        order = order_of(file, variant, options_from(kind.options, options))
        keep_text(order.text, order.digest)
        with self._lock:
            self._refuse_second(file.parent, kind)
            ledger = self._ledger(file.parent)
            run = _Run(_asked(kind, order), kind, order, ledger)
            ledger.runs.append(run.state)
            self._live.append(run)
            self._go_on()
            self._note(run)
            return run.state.model_copy()

    def runs(self, folder: Path) -> list[RunState]:
        """List a job's runs, the latest first.

        Parameters
        ----------
        folder : Path
            Of the job.

        Returns
        -------
        list of RunState
        """
        with self._lock:
            return [run.model_copy(deep=True) for run in reversed(self._ledger(folder).runs)]

    def answers(self, folder: Path) -> dict[str, dict[str, str]]:
        """Say where a job's latest answers are kept, by kind and variant."""
        with self._lock:
            return {what: dict(keys) for what, keys in self._ledger(folder).answers.items()}

    def cancel(self, folder: Path, name: str) -> RunState:
        """End a run and wait until nothing of it lives; one that has ended is left as it is.

        Parameters
        ----------
        folder : Path
            Of the job.
        name : str
            The run's id.

        Returns
        -------
        RunState

        Raises
        ------
        NotThereError
            Where the job has no such run.
        """
        with self._lock:
            run = next((one for one in self._live if one.state.id == name and _of(one, folder)), None)
            if run is not None and run.background is None:
                self._finish(run, Outcome(error=Cancelled()))
        # not inside the lock: its last words want it
        if run is not None and run.background is not None:
            run.background.cancel()
        return self.run(folder, name)

    def run(self, folder: Path, name: str) -> RunState:
        """Give one run."""
        for run in self.runs(folder):
            if run.id == name:
                return run
        raise NotThereError("no such run of this job", where=folder.name, todo="look at the list of its runs")

    def head(self, name: str) -> int | None:
        """Give the process at the head of a run that goes on; None for any other."""
        with self._lock:
            run = next((one for one in self._live if one.state.id == name), None)
        return None if run is None or run.background is None else run.background.process_id

    def close(self) -> None:
        """End everything; what went on is told as interrupted by whoever comes next."""
        with self._lock:
            self._closed = True
            going = list(self._live)
        for run in going:
            if run.background is not None:
                run.background.cancel()

    def _kind(self, what: str) -> Kind:
        if what not in self._kinds:
            wrong, allowed = f"no long work is called '{what}'", ", ".join(self._kinds)
            raise UserError(wrong, where="what", allowed=allowed, todo="name one of these")
        return self._kinds[what]

    def _ledger(self, folder: Path) -> Ledger:
        place = folder.resolve()
        if place not in self._ledgers:
            self._ledgers[place] = ledger = ledger_of(place)
            if any(run.state == "interrupted" for run in ledger.runs):
                _tidy(place)
        return self._ledgers[place]

    def _refuse_second(self, folder: Path, kind: Kind) -> None:
        """One heavy run for each job; what only reads the shape may go on beside it."""
        for run in self._live:
            if _of(run, folder) and run.kind.heavy == kind.heavy:
                raise ConflictError(
                    f"{run.kind.words} goes on already for this job",
                    where=f"run {run.state.id}",
                    todo="wait until it is done, or cancel it",
                )

    def _go_on(self) -> None:
        """Start whatever may go on now; the others are told what they wait for."""
        for run in self._live:
            if run.background is not None or self._closed:
                continue
            before = self._before(run)
            if before is None:
                self._start(run)
            else:
                title = before.order.file.parent.name
                run.state.stage = f"waiting in line: {before.kind.words} of {title} goes on"

    def _before(self, run: _Run) -> _Run | None:
        heavy = (one for one in self._live if one.kind.heavy and one.background is not None)
        return next(heavy, None) if run.kind.heavy else None

    def _start(self, run: _Run) -> None:
        run.state.state, run.state.begun, run.state.stage = "running", now(), "starting"
        run.background = Background(
            run.kind.do,
            run.order,
            progress=_Follower(self, run),
            ended=lambda outcome: self._ended(run, outcome),
        )

    def _ended(self, run: _Run, outcome: Outcome) -> None:
        # what is light writes no folder, and heavy work beside it may be in the midst of one
        if run.kind.heavy:
            _tidy(run.order.file.parent)
        with self._lock:
            self._finish(run, outcome)

    def _finish(self, run: _Run, outcome: Outcome) -> None:
        if self._closed and isinstance(outcome.error, Cancelled):
            run.state.interrupt()
        elif isinstance(outcome.error, Cancelled):
            run.state.end("cancelled")
        elif outcome.error is not None:
            run.state.end("failed", outcome.error, folder=run.order.file.parent)
        else:
            run.state.end("done", answer=outcome.answer)
            run.ledger.note(run.state)
        self._live.remove(run)
        self._note(run)
        self._go_on()

    def _note(self, run: _Run) -> None:
        self._count += 1
        run.ledger.save()

    def step(self, run: _Run, stage: str, done: float, total: float) -> None:
        """Take note of how far a run is."""
        with self._lock:
            run.state.stage, run.state.done, run.state.total = stage, done, total
            self._count += 1


@dataclass(frozen=True)
class _Follower:
    works: Works
    run: _Run

    def step(self, stage: str, done: float, total: float) -> None:
        """Pass it on."""
        self.works.step(self.run, stage, done, total)


def _asked(kind: Kind, order: Order) -> RunState:
    return RunState(
        id=secrets.token_hex(6),
        what=kind.what,
        words=kind.words,
        heavy=kind.heavy,
        variant=order.variant,
        options=options_told(order.options),
        job_sha256=order.digest,
        asked=now(),
    )


def options_told(options: Mapping[str, Any]) -> dict[str, Any]:
    """Options as JSON can hold them."""
    return {name: str(value) if hasattr(value, "isoformat") else value for name, value in options.items()}


def _of(run: _Run, folder: Path) -> bool:
    return run.order.file.parent.resolve() == folder.resolve()


def _tidy(folder: Path) -> None:
    """Give back whole what a process that was killed may have left half-done, unless another is at it."""
    plan = folder / PLAN
    with contextlib.suppress(UserError, OSError), only_one(plan):
        mend_place(plan)
        inside = {one.name.split(".")[1] for one in plan.glob(".*.*") if one.is_dir()}
        for name in inside:
            mend_place(plan / name)
