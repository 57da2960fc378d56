"""The bare faces of a problem in the order that the kernels take them, and its tabulated films."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple, TypeVar

import numpy as np
from numpy.typing import NDArray

from pourwright.solver.faces import Indices, Patch
from pourwright.solver.film_table import FilmTable
from pourwright.solver.problem import Array

Thing = TypeVar("Thing")
Short = NDArray[np.int32]
"""Half as long: what every step reads is to stay in the cache."""


class Faces(NamedTuple):
    """All bare faces, those of one exchange side by side.

    Parameters
    ----------
    cells : array of int (n,)
        Flat index of the cell behind each face.
    places : array of int (n,)
        Where it stands in the losses of all axes, one after the other.
    areas : array (n,)
        [m2].
    inside : array (n,)
        Resistance from the cell's middle to the film [m2 K/W].
    ends : array of int (exchanges + 1,)
        Where the faces of each exchange begin, and where the last end.
    """

    cells: Short
    places: Short
    areas: Array
    inside: Array
    ends: Indices


class Tables(NamedTuple):
    """Tabulated films, one after the other; an exchange without one has no nodes.

    Parameters
    ----------
    ends : array of int (exchanges + 1,)
        Where the nodes of each exchange begin, and where the last end.
    warmer : array (nodes,)
        Surface above surroundings [K].
    values, slopes : array (nodes,)
        Coefficient [W/(m2 K)] and what it rises by per kelvin up to the next node.
    """

    ends: Indices
    warmer: Array
    values: Array
    slopes: Array


def _distinct(things: Iterable[Thing]) -> tuple[list[Thing], list[int]]:
    """List the different ones, and which of them each is."""
    kinds: list[Thing] = []
    which = []
    for thing in things:
        if thing not in kinds:
            kinds.append(thing)
        which.append(kinds.index(thing))
    return kinds, which


def _tables(films: Iterable[object]) -> Tables:
    """Put tabulated films one after the other, at the lowest temperature of the surroundings they know."""
    tables = [film if isinstance(film, FilmTable) else None for film in films]
    warmer = [np.zeros(0) if table is None else table.warmer for table in tables]
    values = [np.zeros(0) if table is None else table.coefficients[0] for table in tables]
    steps = [slopes(*each) for each in zip(values, warmer, strict=True)]
    nodes, heights, rises = (np.concatenate([np.zeros(0), *parts]) for parts in (warmer, values, steps))
    return Tables(_ends(part.size for part in warmer), nodes, heights, rises)


def slopes(values: Array, warmer: Array) -> Array:
    """Compute the rise from each node of a table to the next.

    Parameters
    ----------
    values : array (n,)
        At the nodes.
    warmer : array (n,)
        The nodes, rising.

    Returns
    -------
    array (n,)
        Level after the last.

    Examples
    --------
    >>> slopes(np.array([1.0, 2.0, 6.0]), np.array([0.0, 1.0, 3.0]))
    array([1., 2., 0.])
    """
    rise = np.zeros_like(values)
    rise[:-1] = np.diff(values) / np.diff(warmer)
    return rise


def _ends(sizes: Iterable[int]) -> Indices:
    return np.cumsum([0, *sizes], dtype=np.int64)


def _joined(patches: tuple[Patch, ...], size: int, ends: Indices) -> Faces:
    """Put the faces of all patches one after the other."""
    none = np.zeros(0, dtype=np.int64)
    places = (patch.places + patch.axis * size for patch in patches)
    return Faces(
        np.concatenate([none, *(patch.cells for patch in patches)]).astype(np.int32),
        np.concatenate([none, *places]).astype(np.int32),
        np.concatenate([np.zeros(0), *(patch.areas for patch in patches)]),
        np.concatenate([np.zeros(0), *(patch.half + patch.exchange.resistance for patch in patches)]),
        ends,
    )


class BareFaces:
    """Bare faces and what goes on there, laid out once; never written again.

    Parameters
    ----------
    patches : tuple of Patch
        From `find_patches`.
    size : int
        Cells of the grid.
    """

    def __init__(self, patches: tuple[Patch, ...], size: int) -> None:
        self.exchanges, which = _distinct(patch.exchange for patch in patches)
        order = sorted(range(len(patches)), key=which.__getitem__)
        self.size, self.patches = size, tuple(patches[place] for place in order)
        sizes = [0] * len(self.exchanges)
        for kind, patch in zip(which, patches, strict=True):
            sizes[kind] += patch.cells.size
        self.faces = _joined(self.patches, size, _ends(sizes))
        self.tables = _tables(exchange.film for exchange in self.exchanges)
        self.airs, self.air_of = _distinct(exchange.surroundings for exchange in self.exchanges)
        films = list(enumerate(exchange.film for exchange in self.exchanges))
        self.called = [kind for kind, film in films if callable(film) and not isinstance(film, FilmTable)]
        self.changing = [
            kind for kind, film in films if isinstance(film, FilmTable) and film.surroundings.size > 1
        ]

    def part(self, kind: int) -> slice:
        """Faces of one exchange."""
        return slice(int(self.faces.ends[kind]), int(self.faces.ends[kind + 1]))
