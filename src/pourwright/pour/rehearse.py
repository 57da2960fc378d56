"""Run a whole plan of pours once, finely, and note everything the maker is told about it."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.progress import SILENT, Progress
from pourwright.pour.cracks import Cracks, cracks
from pourwright.pour.cuts import easiest_to_show
from pourwright.pour.faces import FaceDiary, FacesSeen
from pourwright.pour.follow import NEVER, Followed, Goal, Observer, follow, together
from pourwright.pour.hardening import HardeningDiary
from pourwright.pour.layout import Layout
from pourwright.pour.marks import Marks
from pourwright.pour.snapshots import Recorder, Recording
from pourwright.pour.stages import Stage, add_pour, empty_mold
from pourwright.solver import Control

Array = NDArray[np.float64]
Place = tuple[float, float, float]
AS_SOFT = 0.002
"""Cure by which a place may differ from the softest and still be called so: less than is printed."""
MOST_ROWS = 197
"""Rows of a history, besides the first, the last and the hottest."""


NOT_LOOKED_AT = FacesSeen((), (), ())


class Planned(NamedTuple):
    """One pour of a plan: level to reach [m], start [s]."""

    level: float
    start: float


@dataclass(frozen=True)
class History:
    """What happens in the casting while a pour is the last one; time [s], temperatures [K], cure [-]."""

    time: tuple[float, ...]
    hottest: tuple[float, ...]
    coolest: tuple[float, ...]
    least_cured: tuple[float, ...]


@dataclass(frozen=True)
class PourSeen:
    """Everything noted of one pour; times are seconds after the climate's zero.

    Parameters
    ----------
    lower, upper : float
        Levels [m].
    start : float
        [s]
    poured_at : float
        Temperature of the resin as it goes in [K].
    peak, peak_time, peak_place
        Hottest place of the casting until the next pour [K], [s], [m].
    face_peak : float
        Hottest place of the rubber's face until the next pour [K].
    box_peak : float
        Hottest place of the box, its glue and its sealed seams until the next pour [K].
    gel_first, gel_last : float
        First and last place of this pour at the gel point [s]; infinite where not yet.
    bonds_from, bonds_until : float
        Window of the next pour [s].
    least_cured, least_cured_place
        At the end of this pour's history [-], [m].
    history : History
        Thinned to at most 200 points.
    faces : FacesSeen
        Mold and top until the next pour, or until it can be demolded.
    """

    lower: float
    upper: float
    start: float
    poured_at: float
    peak: float
    peak_time: float
    peak_place: Place
    face_peak: float
    box_peak: float
    gel_first: float
    gel_last: float
    bonds_from: float
    bonds_until: float
    least_cured: float
    least_cured_place: Place
    history: History
    faces: FacesSeen = NOT_LOOKED_AT


@dataclass(frozen=True)
class Softest:
    """Least-cured place of one pour at the end of the run: cure [-], place [m]."""

    cured: float
    place: Place


@dataclass(frozen=True)
class Rehearsal:
    """A plan run through.

    Parameters
    ----------
    pours : tuple of PourSeen
        In order.
    ready : float
        When the least-cured place is hard enough [s]; infinite where it stalls.
    ready_cure, ready_glass_transition, ready_place
        Of the softest place then [-], [K], [m].
    spacing : float
        Widest cell [m].
    cells, steps : int
        Size of the run.
    energy_error : float
        Largest relative error of the heat balance [-].
    recording : Recording or None
        Where one was asked for.
    softest : tuple of Softest
        Of each pour when all is hard enough, or at the end of the watch.
    cracks : Cracks or None
        Where it may crack or turn white, where the run was recorded.
    """

    pours: tuple[PourSeen, ...]
    ready: float
    ready_cure: float
    ready_glass_transition: float
    ready_place: Place
    spacing: float
    cells: int
    steps: int
    energy_error: float
    recording: Recording | None = None
    softest: tuple[Softest, ...] = ()
    cracks: Cracks | None = None


@dataclass
class _Diary:
    """Collects the history of one pour step by step."""

    cells: NDArray[np.bool_]
    rows: list[tuple[float, float, float, float]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.inside = np.flatnonzero(self.cells)

    def __call__(self, time: float, temperature: Array, conversion: Array) -> None:
        warm, cure = (values.reshape(-1)[self.inside] for values in (temperature, conversion))
        self.rows.append((time, float(warm.max()), float(warm.min()), float(cure.min())))

    def history(self) -> History:
        """Thin the rows, keeping the first, the last and the hottest."""
        rows = self.rows[:: max(1, -(-len(self.rows) // MOST_ROWS))]
        hottest = max(self.rows, key=lambda row: row[1])
        kept = sorted({*rows, hottest, self.rows[-1]})
        return History(*(tuple(column) for column in zip(*kept, strict=True)))


def rehearse(
    layout: Layout,
    plan: tuple[Planned, ...],
    control: Control | None = None,
    progress: Progress = SILENT,
    recorder: Recorder | None = None,
) -> Rehearsal:
    """Run all pours of a plan and follow the last one until it can be demolded.

    Parameters
    ----------
    layout : Layout
        With a line at every level of the plan.
    plan : tuple of Planned
        Ascending levels and starts.
    control : Control, optional
        Of the solver.
    progress : Progress
        Told the share done; may raise Cancelled.
    recorder : Recorder, optional
        Keeps snapshots for pictures.

    Returns
    -------
    Rehearsal
        Of this grid.
    """
    control = control or Control(tolerance=0.05)
    stage = empty_mold(layout, plan[0].start)
    hardening = None if recorder is None else HardeningDiary(layout)
    pours: list[PourSeen] = []
    steps, error, seen = 0, 0.0, None
    for number, (level, start) in enumerate(plan):
        stage = add_pour(stage, level)
        following = plan[number + 1].start if number + 1 < len(plan) else None
        name = f"heat and cure, pour {number + 1} of {len(plan)}"
        diary = _Diary(stage.poured)
        diary(start, stage.state.temperature, stage.state.conversion)
        faces = FaceDiary(stage)
        observers: list[Observer] = [diary, faces]
        if recorder is not None and hardening is not None:
            recorder.pour(stage)
            hardening.pour(stage)
            observers += [recorder, hardening]
        seen = follow(
            stage,
            Goal.READY if following is None else Goal.BOND,
            until=following,
            control=control,
            observer=together(*observers),
            progress=progress,
            stage_name=name,
        )
        # without the next pour: until when it would still have bonded, unless that has been seen
        known = max(seen.gel_last, seen.bonds_from, seen.bonds_until) < NEVER
        window = seen if following is None or known else follow(seen.stage, Goal.BOND, control=control)
        pours.append(_pour_seen(stage, seen, window, diary.history(), faces.seen()))
        stage, steps, error = seen.stage, steps + seen.steps, max(error, seen.energy_error)
    assert seen is not None
    rehearsal = _rehearsal(seen, pours, steps, error, recorder)
    if hardening is None:
        return rehearsal
    return replace(rehearsal, cracks=cracks(seen.stage, hardening.hardened(seen.stage)))


def _pour_seen(
    stage: Stage, seen: Followed, window: Followed, history: History, faces: FacesSeen
) -> PourSeen:
    layout, end = stage.layout, seen.stage.state
    cell, cure = _least(stage.poured, end.conversion)
    return PourSeen(
        lower=stage.levels[-2] if len(stage.levels) > 1 else 0.0,
        upper=stage.level,
        start=stage.starts[-1],
        poured_at=layout.site.poured_at(stage.starts[-1]),
        peak=seen.peak,
        peak_time=seen.peak_time,
        peak_place=layout.place(seen.peak_cell),
        face_peak=float(end.records.peak_temperature[layout.face].max()),
        box_peak=float(end.records.peak_temperature[layout.box].max(initial=0.0)),
        gel_first=min(seen.gel_first, window.gel_first),
        gel_last=min(seen.gel_last, window.gel_last),
        bonds_from=min(seen.bonds_from, window.bonds_from),
        bonds_until=min(seen.bonds_until, window.bonds_until),
        least_cured=cure,
        least_cured_place=layout.place(cell),
        history=history,
        faces=faces,
    )


def _least(cells: NDArray[np.bool_], values: Array) -> tuple[tuple[int, int, int], float]:
    low = np.where(cells, values, np.inf)
    cell = np.unravel_index(int(np.argmin(low)), low.shape)
    return (int(cell[0]), int(cell[1]), int(cell[2])), float(low[cell])


def _rehearsal(
    seen: Followed, pours: list[PourSeen], steps: int, error: float, recorder: Recorder | None
) -> Rehearsal:
    layout, end = seen.stage.layout, seen.stage.state
    marks = Marks.of(layout.site.resin)
    _, cure = _least(seen.stage.poured, end.conversion)
    cell = easiest_to_show(layout, seen.stage.poured, end.conversion, AS_SOFT)
    hottest = max(range(len(pours)), key=lambda number: pours[number].peak)
    return Rehearsal(
        tuple(pours),
        seen.ready,
        cure,
        float(marks.glass_transition(np.array(cure))),
        layout.place(cell),
        max(float(step.max()) for step in layout.grid.spacings),
        layout.cavity.size,
        steps,
        error,
        None if recorder is None else recorder.recording(seen.stage, hottest, cell),
        tuple(_softest(seen.stage, number) for number in range(len(pours))),
    )


def _softest(stage: Stage, number: int) -> Softest:
    cells, cure = stage.of_pour(number), stage.state.conversion
    cell = easiest_to_show(stage.layout, cells, cure, AS_SOFT)
    return Softest(float(cure[cells].min()), stage.layout.place(cell))
