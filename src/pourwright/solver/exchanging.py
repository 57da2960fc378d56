"""What passes through bare faces during a step."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from pourwright.solver.bare import BareFaces, Short, slopes
from pourwright.solver.compilation import inlined, kernel
from pourwright.solver.film_table import FilmTable
from pourwright.solver.problem import Array, Film, InTime
from pourwright.solver.state import Field

FILM_PASSES = 3
NEAR = 4
"""So many nodes of a table a surface seldom passes in a step; beyond, a node is looked for by halves."""
LEAST_RESISTANCE = 1e-6
"""Between a cell's middle and the surroundings [m2 K/W]: a held surface may pass through the middle."""
LEAST_FILM = 1e-9
"""Film coefficients below this count as this, so that still air does not divide by zero [W/(m2 K)]."""


def mean_over(surroundings: float | InTime, time: float, step: float) -> float:
    """Average the surroundings' temperature over a step by Simpson's rule.

    Parameters
    ----------
    surroundings : float or callable
        As in `Exchange`.
    time, step : float
        Start and length of the step [s].

    Returns
    -------
    float
        [K].

    Examples
    --------
    >>> mean_over(lambda time: 290.0 + time, 0.0, 4.0)
    292.0
    """
    if not callable(surroundings):
        return float(surroundings)
    ends = float(surroundings(time)) + float(surroundings(time + step))
    return (ends + 4.0 * float(surroundings(time + 0.5 * step))) / 6.0


class Kept(NamedTuple):
    """What is known of every face from step to step.

    Parameters
    ----------
    combined : array (n,)
        Conductance per area from the cell's middle to the surroundings [W/(m2 K)].
    share : array (n,)
        Of the difference between cell and surroundings that lies outside the surface [-].
    node : array of int (n,)
        Node of the table below the last look-up.
    """

    combined: Array
    share: Array
    node: Short


@inlined
def _node(warmer, first, last, node, value):  # type: ignore[no-untyped-def]
    """Node at or below a value, which lies within the table: near that of the last time, else by halves."""
    one, near = np.uint64(1), np.uint64(NEAR)
    if first + near <= node < last - near and warmer[node - near] <= value < warmer[node + near]:
        while value < warmer[node]:
            node -= one
        while value >= warmer[node + one]:
            node += one
        return node
    low, span = first, last - first
    # without a branch, which the processor would guess wrong half of the time
    while span > one:
        half = span >> one
        low += half * np.uint64(warmer[low + half] <= value)
        span -= half
    return low


def in_series_with(film: float | Array, inside: float | Array) -> Array:
    """Combine a film with what lies between it and the cells' middles.

    Parameters
    ----------
    film : float or array (n,)
        Coefficient [W/(m2 K)], not 0.
    inside : array (n,)
        Resistance [m2 K/W].

    Returns
    -------
    array (n,)
        [W/(m2 K)].

    Examples
    --------
    >>> in_series_with(10.0, np.array([0.15]))
    array([4.])
    """
    return np.asarray(1.0 / np.maximum(inside + 1.0 / np.asarray(film), LEAST_RESISTANCE))


@kernel
def _look_up(passes, half_step, outside, faces, tables, now, lift, kept):  # type: ignore[no-untyped-def]
    """Combine half cells, resistances and tabulated films, at the surfaces in the middle of a step.

    A film depends on the surface's temperature, which depends on the film: met by fixed-point iteration,
    which converges fast because most of the resistance lies in the film.
    """
    warmer, values, slopes = tables.warmer, tables.values, tables.slopes
    for kind in range(outside.size):
        first, last = np.uint64(tables.ends[kind]), np.uint64(tables.ends[kind + 1])
        around = outside[kind]
        if first == last:
            continue
        for n in range(np.uint64(faces.ends[kind]), np.uint64(faces.ends[kind + 1])):
            c, inside = np.uint64(faces.cells[n]), faces.inside[n]
            rate = now.diffusive_rate[c] + lift[c] * now.reaction_rate[c]
            above = now.temperature[c] + half_step * rate - around
            share, node, combined = kept.share[n], np.uint64(kept.node[n]), 0.0
            for _ in range(passes):
                value = min(max(above * share, warmer[first]), warmer[last - 1])
                node = _node(warmer, first, last, node, value)
                film = max(values[node] + slopes[node] * (value - warmer[node]), LEAST_FILM)
                # one division: film and what lies before it in series, but never less than the least
                combined = film / max(1.0 + inside * film, LEAST_RESISTANCE * film)
                share = 1.0 - combined * inside
            kept.combined[n], kept.share[n], kept.node[n] = combined, share, node


@kernel
def _spread(outside, faces, combined, mean, loss, power):  # type: ignore[no-untyped-def]
    """Set loss and power of the cells behind faces; returns the sum of power [W]."""
    for n in range(np.uint64(faces.cells.size)):
        loss[np.uint64(faces.places[n])] = 0.0
        power[np.uint64(faces.cells[n])] = 0.0
    total = 0.0
    for kind in range(outside.size):
        for n in range(np.uint64(faces.ends[kind]), np.uint64(faces.ends[kind + 1])):
            c, place = np.uint64(faces.cells[n]), np.uint64(faces.places[n])
            conductance = faces.areas[n] * combined[n]
            loss[place] += conductance
            flow = conductance * (outside[kind] - mean[c])
            power[c] += flow
            total += flow
    return total


class Exchanger:
    """Keeps the conductance of bare faces per cell and axis, and the power that enters at a step's start.

    Parameters
    ----------
    bare : BareFaces
        The faces.
    """

    def __init__(self, bare: BareFaces) -> None:
        faces, tables = bare.faces, bare.tables
        self.bare = bare
        self.tables = tables._replace(values=tables.values.copy(), slopes=tables.slopes.copy())
        self.kept = Kept(
            np.zeros(faces.cells.size),
            np.ones(faces.cells.size),
            np.repeat(tables.ends[:-1], np.diff(faces.ends)).astype(np.int32),
        )
        for kind, exchange in enumerate(bare.exchanges):
            if not callable(exchange.film):
                part = bare.part(kind)
                self.kept.combined[part] = in_series_with(exchange.film, faces.inside[part])
        self._losses = np.zeros(3 * bare.size)
        self.loss = tuple(self._losses.reshape(3, -1))
        self.power = np.zeros(bare.size)
        self._passes = FILM_PASSES

    def prepare(self, time: float, step: float, now: Field, lift: Array) -> float:
        """Set loss and power for a step.

        Parameters
        ----------
        time, step : float
            [s].
        now : Field
            Flat, at the step's start; by its rates films are evaluated in the middle of the step.
        lift : array (cells,)
            Rise per unit of conversion [K].

        Returns
        -------
        float
            Power entering through all bare faces with temperatures as they are [W].
        """
        bare, faces, kept = self.bare, self.bare.faces, self.kept
        airs = [mean_over(air, time, step) for air in bare.airs]
        outside = np.array([airs[which] for which in bare.air_of])
        for kind in bare.changing:
            self._fill_in(kind, float(outside[kind]))
        _look_up(self._passes, 0.5 * step, outside, faces, self.tables, now, lift, kept)
        for kind in bare.called:
            self._call(kind, 0.5 * step, float(outside[kind]), now, lift)
        # from now on the share of the difference outside the surface is known, and hardly changes in a step
        self._passes = 1
        return float(_spread(outside, faces, kept.combined, now.mean, self._losses, self.power))

    def _fill_in(self, kind: int, around: float) -> None:
        """Tabulate a film at the surroundings' temperature."""
        film, ends = self.bare.exchanges[kind].film, self.tables.ends
        assert isinstance(film, FilmTable)
        part = slice(int(ends[kind]), int(ends[kind + 1]))
        self.tables.values[part] = film.row(around)
        self.tables.slopes[part] = slopes(self.tables.values[part], film.warmer)

    def _call(self, kind: int, half_step: float, around: float, now: Field, lift: Array) -> None:
        """Evaluate a film that is no table, as `_look_up` does."""
        part = self.bare.part(kind)
        cells, inside = self.bare.faces.cells[part], self.bare.faces.inside[part]
        film: Film = self.bare.exchanges[kind].film  # type: ignore[assignment]
        rate = now.diffusive_rate[cells] + lift[cells] * now.reaction_rate[cells]
        above = now.temperature[cells] + half_step * rate - around
        for _ in range(self._passes):
            met = film(around + above * self.kept.share[part], around)
            self.kept.combined[part] = in_series_with(np.maximum(met, LEAST_FILM), inside)
            self.kept.share[part] = 1.0 - self.kept.combined[part] * inside
