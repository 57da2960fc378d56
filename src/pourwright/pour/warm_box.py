"""A warm box around the closed mold: slow ramp, hold, slow cooling, found by following the heat."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields, replace
from math import ceil, floor, inf

import numpy as np
from numpy.typing import NDArray

from pourwright.physics.cure_law import holding_time
from pourwright.physics.glass_transition import dibenedetto_conversion
from pourwright.pour.cycle import Cycle
from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.follow import Observer
from pourwright.pour.layout import Layout, lay_out
from pourwright.pour.marks import Marks
from pourwright.pour.rehearse import Place, Rehearsal
from pourwright.pour.site import Site, cure_law
from pourwright.pour.snapshots import Recording, Snapshot
from pourwright.pour.stages import Stage, add_pour, empty_mold
from pourwright.solver import Control, Ending, State, Surfaces, run, start

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
HOUR, DAY = 3600.0, 86400.0
HALF = HOUR / 2
CELLS_ACROSS, FINEST = 12, 0.006
CONTROL = Control(tolerance=0.1, max_step=HOUR)
COOLEST = 303.15
"""A box that is hardly warmer than a shop is none [K]."""
LONGEST_COOLING = 3 * DAY
FULL = 0.9999
NEAR = 3.0
"""So many kelvin below the air counts as warmed through."""


@dataclass(frozen=True)
class WarmBox:
    """A plan for the warm box; times are seconds after the climate's zero, temperatures [K].

    Parameters
    ----------
    begin : float
        When the ramp starts.
    shop, hold : float
        Air it starts from, and air it is held at.
    ramp : float
        Steepest up and down [K/s].
    warm_at, cool_at : float
        When the ramp up ends and the ramp down begins.
    hold_time : float
        Between them [s].
    lag : float
        Time that the coolest place of the casting comes after the air at the end of the ramp [s]; infinite
        where it does not come so far.
    open_at : float
        When the core is near the shop again: not before.
    cured_from, cured_to : float
        Least-cured place before and after [-].
    glass_from, glass_to : float
        Its glass transition.
    peak : float
        Hottest place of the casting on the way.
    peak_limit : float
        What resin and rubber bear.
    hard_at : float
        When all is hard enough to demold at the shop's warmth; infinite where not even then.
    air : tuple of tuple of float
        Corners of the cycle: times, temperatures.
    casting : tuple of tuple of float
        Time, hottest and coolest place, half an hour apart.
    """

    begin: float
    shop: float
    hold: float
    ramp: float
    warm_at: float
    cool_at: float
    lag: float
    open_at: float
    cured_from: float
    cured_to: float
    glass_from: float
    glass_to: float
    peak: float
    peak_limit: float
    hard_at: float
    air: tuple[tuple[float, ...], tuple[float, ...]]
    casting: tuple[tuple[float, float, float], ...]

    @property
    def hold_time(self) -> float:
        """Time between the two ramps [s]."""
        return self.cool_at - self.warm_at


@dataclass(frozen=True)
class Start:
    """Where a warm box begins: from the record of a rehearsal.

    Parameters
    ----------
    time : float
        [s]
    snapshot : Snapshot
        Of the casting.
    softest : float
        Cure of its least-cured place [-].
    place : tuple of float
        Where that is [m].
    """

    time: float
    snapshot: Snapshot
    softest: float
    place: Place


def warm_box(site: Site, seen: Rehearsal, peak_limit: float) -> WarmBox | None:
    """Plan a warm box for a casting that has gelled.

    Parameters
    ----------
    site : Site
        As it was rehearsed.
    seen : Rehearsal
        With its recording.
    peak_limit : float
        Hottest that resin and rubber may get [K].

    Returns
    -------
    WarmBox or None
        The coolest box that brings the least-cured place near what the resin can reach; None where nothing
        was recorded, or where the limits leave no warmth.
    """
    if seen.recording is None:
        return None
    begin = _start(site, seen, seen.recording)
    layout = _coarse(site)
    for hold, ramp in _choices(site, begin.softest, peak_limit):
        found = _follow(site, layout, seen.recording, begin, hold, ramp, peak_limit)
        if found is not None:
            return found
    return None


def goal_of(site: Site) -> float:
    """Say how far a warm box is to bring every place.

    Parameters
    ----------
    site : Site
        With its resin.

    Returns
    -------
    float
        Degree of cure whose glass transition is a few kelvin short of the full one [-].
    """
    law = cure_law(site.resin.cure)
    wanted = law.glass_transition_full - DEFAULTS["warm_box_short"].value
    return min(float(dibenedetto_conversion(wanted, *law.glass)), FULL)


def _start(site: Site, seen: Rehearsal, recording: Recording) -> Start:
    """A day after the last gel, once the core is near the shop; else the end of what was recorded."""
    earliest = seen.pours[-1].gel_last + DEFAULTS["warm_box_after"].value
    near = DEFAULTS["open_within"].value + site.climate.warmest - 273.15
    for snapshot in recording.snapshots:
        hottest = float(snapshot.temperature.max())
        if snapshot.filled == len(seen.pours) and snapshot.time >= earliest and hottest <= near:
            return Start(snapshot.time, snapshot, *_softest(recording, snapshot))
    last = recording.snapshots[-1]
    return Start(last.time, last, seen.ready_cure, seen.ready_place)


def _softest(recording: Recording, snapshot: Snapshot) -> tuple[float, Place]:
    """Cure and place of the least-cured cell."""
    field = np.array(recording.box(snapshot, "conversion"), dtype=float)
    index = np.unravel_index(int(np.nanargmin(field)), field.shape)
    middles = [(edges[1:] + edges[:-1]) / 2 for edges in recording.grid.edges]
    x, y, z = (float(axis[i]) for axis, i in zip(middles, index, strict=True))
    return float(field[index]), (x, y, z)


def _choices(site: Site, cured: float, peak_limit: float) -> Iterator[tuple[float, float]]:
    """Air to hold and ramp to try, best first: the coolest that is done in time, then cooler and slower."""
    step, ramp = DEFAULTS["warm_box_step"].value, DEFAULTS["warm_box_ramp"].value
    most = min(DEFAULTS["warm_box_most"].value, peak_limit - DEFAULTS["warm_box_margin"].value)
    least = max(COOLEST, site.climate.mean + step)
    first, last = ceil((least - 273.15) / step), floor((most - 273.15) / step)
    warmths = [273.15 + step * count for count in range(first, last + 1)]
    law, goal, longest = cure_law(site.resin.cure), goal_of(site), DEFAULTS["warm_box_longest"].value
    done = [warmth for warmth in warmths if holding_time(warmth, cured, goal, law) <= longest]
    wanted = done[0] if done else max(warmths, default=least)
    for warmth in reversed([each for each in warmths if each <= wanted]):
        yield warmth, ramp
        yield warmth, ramp / 2


def _coarse(site: Site) -> Layout:
    """Cells for all cycles: films are tabulated from the shop's warmth to the warmest box."""
    narrow = min(site.block.inside) + 2 * site.block.board
    span = (site.climate.mean, max(DEFAULTS["warm_box_most"].value, site.climate.mean + 1.0))
    any_box = Cycle(site.climate.zero, site.climate.zone, (), (0.0, 1.0), span)
    spacing = max(FINEST, narrow / CELLS_ACROSS)
    return lay_out(replace(site, climate=any_box), spacing, [site.block.height])


def _follow(
    site: Site, layout: Layout, recording: Recording, begin: Start, hold: float, ramp: float, limit: float
) -> WarmBox | None:
    """Warm, hold, cool; None where a place goes over the limit."""
    shop = site.climate.mean
    warm_at = begin.time + _rise(hold - shop, ramp)
    watch = _Watch(site, hold)
    stage = _in_air(_filled(layout, recording, begin, shop), _air(site, begin.time, shop, hold, ramp, inf))
    cells, state = stage.poured, stage.state
    for mark in _marks(warm_at):
        outcome = run(
            stage.problem, state, mark, control=replace(CONTROL, cap=limit), observer=watch.on(cells)
        )
        state = outcome.state
        if outcome.ending is Ending.RUNAWAY:
            return None
        if mark > warm_at and watch.done:
            break
    cool_at = state.time
    air = _air(site, begin.time, shop, hold, ramp, cool_at)
    cooled = _cool(_in_air(stage.at(state), air), air, watch)
    cured = float(cooled.conversion[cells].min())
    marks = Marks.of(site.resin)
    glass = [float(marks.glass_transition(np.array(cure))) for cure in (begin.softest, cured)]
    peak = float(cooled.records.peak_temperature[cells].max())
    return WarmBox(
        begin.time, shop, hold, ramp, warm_at, cool_at, watch.warm_since - warm_at, cooled.time,
        begin.softest, cured, glass[0], glass[1], peak, limit, watch.hard_since,
        (air.times, air.temperatures), tuple(watch.rows),
    )  # fmt: skip


class _Watch:
    """Notes when the coolest place has come up with the air, when all is hard, and when the goal is met."""

    def __init__(self, site: Site, hold: float) -> None:
        self.marks, self.hold, self.goal = Marks.of(site.resin), hold, goal_of(site)
        self.hard = max(site.climate.warmest, DEFAULTS["room"].value) + site.resin.demold_margin.value
        self.warm_since = self.hard_since = inf
        self.done = False
        self.rows: list[tuple[float, float, float]] = []

    def on(self, cells: Mask) -> Observer:
        """Look at some cells; the solver's observer."""

        def observe(time: float, temperature: Array, conversion: Array) -> None:
            least = conversion[cells].min()
            self.done = bool(least >= self.goal)
            inside = temperature[cells]
            if not self.rows or time >= self.rows[-1][0] + HALF:
                self.rows.append((time, float(inside.max()), float(inside.min())))
            if self.warm_since == inf and inside.min() >= self.hold - NEAR:
                self.warm_since = time
            if self.hard_since == inf and self.marks.glass_transition(least) >= self.hard:
                self.hard_since = time

        return observe


def _marks(warm_at: float) -> Iterator[float]:
    """End of the ramp, then every full hour of the hold."""
    for count in range(1 + round(DEFAULTS["warm_box_longest"].value / HOUR)):
        yield warm_at + count * HOUR


def _cool(stage: Stage, air: Cycle, watch: _Watch) -> State:
    """Follow the ramp down until the core is near the shop."""
    cells, state = stage.poured, stage.state
    near = air.temperatures[-1] + DEFAULTS["open_within"].value
    end = air.times[-1] + LONGEST_COOLING
    while state.time < end and (state.time < air.times[-1] or float(state.temperature[cells].max()) > near):
        mark = max(state.time + HOUR, air.times[-1])
        state = run(stage.problem, state, mark, control=CONTROL, observer=watch.on(cells)).state
    return state


def _air(site: Site, begin: float, shop: float, hold: float, ramp: float, cool_at: float) -> Cycle:
    rise = _rise(hold - shop, ramp)
    times, temperatures = [begin, begin + rise], [shop, hold]
    if cool_at < inf:
        times += [cool_at, cool_at + rise]
        temperatures += [hold, shop]
    return Cycle(site.climate.zero, site.climate.zone, (), tuple(times), tuple(temperatures))


def _rise(kelvin: float, ramp: float) -> float:
    """Time of a ramp that is no steeper, in full half hours [s]."""
    return HALF * ceil(round(kelvin / ramp / HALF, 6))


def _in_air(stage: Stage, air: Cycle) -> Stage:
    """Put the mold into another air; the films stay."""
    faces = stage.layout.surfaces
    around = Surfaces(
        *(replace(getattr(faces, each.name), surroundings=air.temperature) for each in fields(faces))
    )
    return replace(stage, problem=replace(stage.problem, surfaces=around))


def _filled(layout: Layout, recording: Recording, begin: Start, shop: float) -> Stage:
    """Fill the mold and put the recorded cure and warmth into it; rubber and box are as warm as the shop."""
    stage = add_pour(empty_mold(layout, begin.time), layout.site.block.height)
    heat = 273.15 + _read(recording, begin.snapshot, "temperature", layout)
    cure = _read(recording, begin.snapshot, "conversion", layout)
    temperature = np.where(layout.filled, heat, shop)
    conversion = np.where(stage.problem.reacting, cure, 0.0)
    # the softest place may lie between the middles of these larger cells
    softest = _nearest(layout, stage.poured, begin.place)
    conversion[softest] = begin.softest
    gel = stage.state.records.thresholds
    return stage.at(start(stage.problem, temperature, conversion, time=begin.time, thresholds=gel))


def _read(recording: Recording, snapshot: Snapshot, quantity: str, layout: Layout) -> Array:
    """Values of the recorded cells at the middles of others; outside the casting the least of the layer."""
    box = np.array(recording.box(snapshot, quantity), dtype=float)
    least = np.nanmin(box)
    lowest = np.fmin.reduce(box.reshape(-1, box.shape[2]), axis=0)
    box = np.where(np.isnan(box), np.where(np.isnan(lowest), least, lowest), box)
    indices = [
        np.clip(np.searchsorted(edges, middles) - 1, 0, edges.size - 2)
        for edges, middles in zip(recording.grid.edges, layout.grid.centers, strict=True)
    ]
    return np.asarray(box[np.ix_(*indices)])


def _nearest(layout: Layout, cells: Mask, place: Place) -> tuple[int, ...]:
    found = np.argwhere(cells)
    middles = np.stack([axis[found[:, n]] for n, axis in enumerate(layout.grid.centers)], axis=1)
    return tuple(int(i) for i in found[int(((middles - np.array(place)) ** 2).sum(axis=1).argmin())])
