"""How thin resin may be in this shop and still get hard: a layer on rubber, a rib between rubber walls.

Little resin stays as cold as the shop and may stall there; more of it warms itself. Both shapes are
taken as endless to the sides, so they are cut into cells along one line only.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from math import inf

import numpy as np
from numpy.typing import NDArray

from pourwright.pour.defaults import DEFAULTS
from pourwright.pour.films import tabulated_film
from pourwright.pour.marks import Marks
from pourwright.pour.reaction import RATE
from pourwright.pour.site import Site, cure_law, fill_properties
from pourwright.solver import Control, Ending, Exchange, Problem, State, Surfaces, run, start

Array = NDArray[np.float64]
WATCH = 12 * 3600.0
CONTROL = Control(tolerance=0.1, max_step=7200.0)
CLOSE = 0.1
"""Share of a depth to which the least one is found."""
RESIN, RUBBER, BOARD = 8, 5, 3
"""Cells along the line."""


class Form(StrEnum):
    """What the resin is poured as."""

    LAYER = "layer"
    RIB = "rib"


@dataclass(frozen=True)
class Cured:
    """What became of one thickness within the time.

    Parameters
    ----------
    thickness : float
        Of the layer or the rib [m].
    hard_after : float
        From the pour [s]; infinite where not in time.
    peak : float
        Hottest of it [K].
    cured : float
        Of its least-cured place at the end of the watch [-].
    too_hot : bool
        Whether it went over the limit of the resin.
    """

    thickness: float
    hard_after: float
    peak: float
    cured: float
    too_hot: bool = False

    @property
    def hard(self) -> bool:
        """Whether it was hard in time and kept its limit."""
        return self.hard_after < inf and not self.too_hot


class Verdict(StrEnum):
    """Which thicknesses get hard in time."""

    ANY = "even the thinnest"
    FROM = "from the least on"
    NONE = "none that stays cool enough"


@dataclass(frozen=True)
class Least:
    """The least thickness that gets hard in time.

    Parameters
    ----------
    form : Form
        Layer or rib.
    solid_fraction : float
        Volume of glass over volume of the bed [-]; 0 without glass.
    verdict : Verdict
        Whether there is such a thickness.
    at : Cured
        The least; the thinnest tried where any will do, the best tried where none does.
    """

    form: Form
    solid_fraction: float
    verdict: Verdict
    at: Cured


def least_thickness(
    site: Site, form: Form, solid_fraction: float = 0.0, *, begin: float = 0.0, limit: float | None = None
) -> Least:
    """Find the least thickness that is hard in time, by doubling and then by halving.

    Parameters
    ----------
    site : Site
        Resin, rubber, box and shop.
    form : Form
        A layer as wide as the mold, or a rib as deep as it.
    solid_fraction : float
        Of the fill [-].
    begin : float
        When it is poured [s].
    limit : float, optional
        Hottest it may get [K]; the resin's own where left out.

    Returns
    -------
    Least
        To within 10 %.
    """
    hottest = site.resin.peak_limit.value if limit is None else limit

    def tried(thickness: float) -> Cured:
        return cure_of(site, form, thickness, solid_fraction, begin=begin, limit=hottest)

    return Least(form, solid_fraction, *_search(tried))


def _search(tried: Callable[[float], Cured]) -> tuple[Verdict, Cured]:
    thinnest, thickest = DEFAULTS["thinnest"].value, DEFAULTS["thickest"].value
    below = tried(thinnest)
    if below.hard:
        return Verdict.ANY, below
    above = None
    for thickness in _doubled(thinnest, thickest):
        seen = tried(thickness)
        if seen.hard or seen.too_hot:
            above = seen
            break
        below = seen
    if above is None:
        return Verdict.NONE, below
    # what is too hot bounds the search from above as what is hard does
    while above.thickness > (1.0 + CLOSE) * below.thickness:
        seen = tried(float(np.sqrt(above.thickness * below.thickness)))
        if seen.hard or seen.too_hot:
            above = seen
        else:
            below = seen
    return (Verdict.FROM, above) if above.hard else (Verdict.NONE, below)


def _doubled(first: float, last: float) -> Iterator[float]:
    thickness = first
    while thickness < last:
        thickness = min(2.0 * thickness, last)
        yield thickness


def cure_of(
    site: Site,
    form: Form,
    thickness: float,
    solid_fraction: float = 0.0,
    *,
    begin: float = 0.0,
    limit: float = inf,
    watch: float | None = None,
) -> Cured:
    """Simulate one thickness until it is hard, too hot, or the time is up.

    Parameters
    ----------
    site : Site
        Resin, rubber, box and shop.
    form : Form
        Layer or rib.
    thickness : float
        [m]
    solid_fraction : float
        Of the fill [-].
    begin : float
        When it is poured [s].
    limit : float
        Hottest it may get [K].
    watch : float, optional
        How long it is waited for [s].

    Returns
    -------
    Cured
        By the rule that the whole piece is demolded by.
    """
    problem, resin = PROBLEMS[form](site, thickness, solid_fraction)
    state = _poured(site, problem, resin, solid_fraction, begin)
    hard = _Hardening(site, resin, begin)
    end = begin + (DEFAULTS["hard_within"].value if watch is None else watch)
    while state.time < end and hard.since == inf:
        mark = min(state.time + WATCH, end)
        outcome = run(problem, state, mark, control=CONTROL, observer=hard)
        state = outcome.state
        if outcome.ending is Ending.RUNAWAY:
            break
    peak = float(state.records.peak_temperature[resin].max())
    cured = float(state.conversion[resin].min())
    return Cured(thickness, hard.since - begin, peak, cured, too_hot=peak > limit)


class _Hardening:
    """Reads the demold rule at every step; the crossing lies on a straight line in between."""

    def __init__(self, site: Site, resin: NDArray[np.bool_], begin: float) -> None:
        self.marks, self.resin = Marks.of(site.resin), resin
        self.room = max(site.climate.warmest, DEFAULTS["room"].value)
        self.last, self.since = (begin, inf), inf

    def __call__(self, time: float, temperature: Array, conversion: Array) -> None:
        left = self.marks.hardness_left(temperature[self.resin], conversion[self.resin], self.room)
        before, more = self.last
        if left <= 0.0 and self.since == inf:
            share = more / (more - left) if more < inf else 1.0
            self.since = before + share * (time - before)
        self.last = (time, left)


def _poured(site: Site, problem: Problem, resin: NDArray[np.bool_], solid: float, begin: float) -> State:
    """Warm resin over glass, rubber and board as cold as the shop."""
    fill, shop = fill_properties(site.resin, site.glass, solid), site.climate.temperature(begin)
    mixed = (fill.resin_capacity * site.poured_at(begin) + fill.glass_capacity * shop) / fill.capacity
    first = np.where(resin, mixed, shop)
    cure = np.where(resin, site.resin.cure.initial_conversion.value, 0.0)
    return start(problem, first, cure, time=begin)


def _layer(site: Site, thickness: float, solid: float) -> tuple[Problem, NDArray[np.bool_]]:
    """From the bench up: board, rubber, resin, air."""
    block = site.block
    parts = ((block.board, BOARD), (block.base, RUBBER), (thickness, RESIN))
    edges = _edges(parts)
    kinds = np.repeat([0, 1, 2], [count for _, count in parts])
    width, depth = (side + 2 * block.board for side in block.inside)
    flat = width * depth / (2 * (width + depth))
    air, typical = site.climate.temperature, site.climate.typical
    bench = DEFAULTS["bench_thickness"].value / site.board.conductivity.value
    below = tabulated_film(typical, flat, "facing down", site.board.emissivity.value)
    above = tabulated_film(typical, flat, "facing up", DEFAULTS["open_emissivity"].value)
    faces = Surfaces(z_low=Exchange(below, air, resistance=bench), z_high=Exchange(above, air))
    one = np.array([0.0, 1.0])
    return _problem(site, (one, one, edges), kinds.reshape(1, 1, -1), solid, faces)


def _rib(site: Site, thickness: float, solid: float) -> tuple[Problem, NDArray[np.bool_]]:
    """From its middle outward: resin, rubber, board, air."""
    block = site.block
    lower, upper = site.piece.bounds
    wall = min((side - (high - low)) / 2 for side, low, high in zip(block.inside, lower, upper, strict=False))
    parts = ((thickness / 2, RESIN), (max(wall, 1e-3), RUBBER), (block.board, BOARD))
    kinds = np.repeat([2, 1, 0], [count for _, count in parts])
    tall = block.height + block.base + block.board
    film = tabulated_film(site.climate.typical, tall, "upright", site.board.emissivity.value)
    faces = Surfaces(x_high=Exchange(film, site.climate.temperature))
    one = np.array([0.0, 1.0])
    return _problem(site, (_edges(parts), one, one), kinds.reshape(-1, 1, 1), solid, faces)


PROBLEMS = {Form.LAYER: _layer, Form.RIB: _rib}


def _edges(parts: tuple[tuple[float, int], ...]) -> Array:
    steps = np.concatenate([np.full(count, width / count) for width, count in parts])
    return np.concatenate([[0.0], np.cumsum(steps)])


def _problem(
    site: Site, edges: tuple[Array, Array, Array], kinds: NDArray[np.int64], solid: float, faces: Surfaces
) -> tuple[Problem, NDArray[np.bool_]]:
    """Board 0, rubber 1, fill 2."""
    fill = fill_properties(site.resin, site.glass, solid)
    shell = [(record.density.value * record.heat_capacity.value) for record in (site.board, site.rubber)]
    capacity = np.array([*shell, fill.capacity])[kinds]
    conducts = np.array([site.board.conductivity.value, site.rubber.conductivity.value, fill.conductivity])
    heat = np.array([0.0, 0.0, fill.heat])[kinds]
    law = cure_law(site.resin.cure).row
    problem = Problem(*edges, capacity, conducts[kinds], heat, surfaces=faces, rate=RATE, parameters=law)
    return problem, kinds == 2
