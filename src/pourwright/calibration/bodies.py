"""Small bodies of resin as they are tested: cups, films, slabs, bars, discs, with the air around."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cache

import numpy as np
from numpy.typing import NDArray

from pourwright.calibration.body_kernel import DELTA_COUNT, DELTA_LOW, DELTA_STEP
from pourwright.calibration.defaults import DEFAULTS, WALLS
from pourwright.pour.films import tabulated_film

Array = NDArray[np.float64]
RINGS, LAYERS, LINE = 5, 8, 12
DELTAS: Array = DELTA_LOW + DELTA_STEP * np.arange(DELTA_COUNT, dtype=np.float64)
TYPICAL = 1.8e6 / 10.0
"""Heat capacity of resin over a film coefficient [s/m]."""
INSULATED = 1e6
"""Resistance of a face that no heat crosses [m2 K/W]."""


@dataclass(frozen=True, eq=False)
class Body:
    """A body of revolution, or a long bar, in cells from its axis outwards and from its floor up.

    Parameters
    ----------
    area : array (rings,)
        Floor of each ring [m2]; of a bar, per metre of its length and for one half.
    face : array (rings + 1,)
        Length of the side between rings, seen from above [m]; the first is the axis.
    width : array (rings,)
        Thickness of each ring [m].
    height : float
        Depth of the resin [m].
    layers : int
        Cells along the height.
    tables : array (3, n)
        Film coefficients of side, top and bottom against how much warmer the face is [W/(m2 K)].
    resistance : array (3,)
        What lies between the resin and the air there [m2 K/W].
    steady : bool
        Whether it is too thin to warm itself.
    """

    area: Array
    face: Array
    width: Array
    height: float
    layers: int
    tables: Array
    resistance: Array
    steady: bool = False

    @property
    def pause(self) -> float:
        """How long the body roughly takes to follow the air [s]: no step is much longer."""
        around = float(self.face[-1]) * self.height + 2.0 * float(self.area.sum())
        return TYPICAL * float(self.area.sum()) * self.height / around

    def deep(self, height: float) -> Body:
        """Give the same body another depth [m]."""
        return replace(self, height=height)


@cache
def _table(ambient: float, length: float, face: str) -> Array:
    film = tabulated_film(ambient, length, face, DEFAULTS["emissivity"].value)
    return film(ambient + DELTAS, ambient)


def _films(ambient: float, side: float, level: float) -> Array:
    pairs = ((side, "upright"), (level, "facing up"), (level, "facing down"))
    return np.array([_table(round(ambient, 1), max(length, 1e-3), face) for length, face in pairs])


def _bench() -> float:
    """Resistance of a wooden bench top, for what stands on it [m2 K/W]."""
    return DEFAULTS["bench_thickness"].value / DEFAULTS["wood_conductivity"].value


def _rings(radius: float) -> tuple[Array, Array, Array]:
    edges = np.linspace(0.0, radius, RINGS + 1)
    return math.pi * np.diff(edges**2), 2.0 * math.pi * edges, np.diff(edges)


def cup(
    mass: float, density: float, ambient: float, *, diameter: float | None = None, wall: str = "plastic"
) -> Body:
    """Resin in a cup on a bench.

    Parameters
    ----------
    mass : float
        Of the mixed resin [kg].
    density : float
        Of the mixed resin [kg/m3].
    ambient : float
        Of the air, for its properties [K].
    diameter : float, optional
        Inside, mean of top and bottom [m]; else as wide as the resin is deep.
    wall : str
        What the cup is made of, a key of `WALLS`.

    Returns
    -------
    Body
    """
    volume = mass / density
    across = diameter or (4.0 * volume / math.pi) ** (1.0 / 3.0)
    depth = volume / (math.pi * across**2 / 4.0)
    area, face, width = _rings(across / 2.0)
    through = WALLS[wall].value
    return Body(
        area, face, width, depth, LAYERS, _films(ambient, depth, across / 4.0),
        np.array([through, 0.0, through + _bench()]),
    )  # fmt: skip


def slab(thickness: float, ambient: float) -> Body:
    """A wide casting in a wooden form on a bench.

    Parameters
    ----------
    thickness : float
        Depth of the resin [m].
    ambient : float
        Of the air [K].

    Returns
    -------
    Body
    """
    one = np.array([1.0])
    board = DEFAULTS["form_thickness"].value / DEFAULTS["wood_conductivity"].value
    films = _films(ambient, thickness, DEFAULTS["wide"].value / 4.0)
    return Body(one, np.zeros(2), one, thickness, LINE, films, np.array([INSULATED, 0.0, board + _bench()]))


def film(ambient: float) -> Body:
    """A coat so thin that it is as warm as the air.

    Parameters
    ----------
    ambient : float
        Of the air [K].

    Returns
    -------
    Body
    """
    return replace(slab(DEFAULTS["coat"].value, ambient), layers=1, steady=True)


def bar(width: float, depth: float, ambient: float) -> Body:
    """A long casting of limited width between wooden sides.

    Parameters
    ----------
    width, depth : float
        Of the resin [m].
    ambient : float
        Of the air [K].

    Returns
    -------
    Body
    """
    edges = np.linspace(0.0, width / 2.0, RINGS + 1)
    face = np.r_[0.0, np.ones(RINGS)]
    board = DEFAULTS["form_thickness"].value / DEFAULTS["wood_conductivity"].value
    return Body(
        np.diff(edges), face, np.diff(edges), depth, LAYERS, _films(ambient, depth, width / 4.0),
        np.array([board, 0.0, board + _bench()]),
    )  # fmt: skip


def disc(mass: float, depth: float, density: float, ambient: float) -> Body:
    """A round casting of a stated mass and depth in a wooden form.

    Parameters
    ----------
    mass : float
        Of the mixed resin [kg].
    depth : float
        Of the resin [m].
    density : float
        Of the mixed resin [kg/m3].
    ambient : float
        Of the air [K].

    Returns
    -------
    Body
    """
    radius = math.sqrt(mass / density / depth / math.pi)
    area, face, width = _rings(radius)
    board = DEFAULTS["form_thickness"].value / DEFAULTS["wood_conductivity"].value
    return Body(
        area, face, width, depth, LAYERS, _films(ambient, depth, radius / 2.0),
        np.array([board, 0.0, board + _bench()]),
    )  # fmt: skip
