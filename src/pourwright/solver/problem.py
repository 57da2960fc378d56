"""What the solver is given: a grid, properties per cell, and what goes on at every bare face."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.errors import UserError

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]
Film = Callable[[Array, float], Array]
InTime = Callable[[float], float]


@dataclass(frozen=True, slots=True)
class Exchange:
    """How a bare face trades heat: half the cell, a resistance in series, a film, the surroundings.

    Parameters
    ----------
    film : float or callable
        Film coefficient [W/(m2 K)]; infinite holds the face at the surroundings' temperature;
        0 insulates it. A callable gets the surface temperatures [K] (n,) and the surroundings'
        temperature [K] and returns the coefficients (n,).
    surroundings : float or callable
        Temperature of the other side [K], or a callable of time [s] that gives it.
    resistance : float
        Resistance between face and film [m2 K/W], such as a board not on the grid.

    Examples
    --------
    >>> bench = Exchange(np.inf, 291.15, resistance=0.05)
    >>> bench.insulated
    False
    >>> Exchange().insulated
    True
    """

    film: float | Film = 0.0
    surroundings: float | InTime = 293.15
    resistance: float = 0.0

    @property
    def insulated(self) -> bool:
        """Whether nothing passes."""
        return not callable(self.film) and self.film == 0.0

    def temperature(self, time: float) -> float:
        """Give the surroundings' temperature [K] at a time [s]."""
        return float(self.surroundings(time)) if callable(self.surroundings) else float(self.surroundings)


INSULATED = Exchange()


@dataclass(frozen=True, slots=True)
class Surfaces:
    """The exchange at the six outer faces of the grid, and where a cell is bare towards an empty one.

    Parameters
    ----------
    x_low, x_high, y_low, y_high, z_low, z_high : Exchange
        Outer faces of the grid.
    up, side, down : Exchange
        Faces inside the grid between an active cell and an empty one, by where the face looks.
    """

    x_low: Exchange = INSULATED
    x_high: Exchange = INSULATED
    y_low: Exchange = INSULATED
    y_high: Exchange = INSULATED
    z_low: Exchange = INSULATED
    z_high: Exchange = INSULATED
    up: Exchange = INSULATED
    side: Exchange = INSULATED
    down: Exchange = INSULATED

    @classmethod
    def all(cls, exchange: Exchange) -> Surfaces:
        """Use one exchange everywhere."""
        return cls(*[exchange] * 9)


@dataclass(frozen=True, slots=True)
class CutSurface:
    """Bare surface that runs through cells.

    Parameters
    ----------
    cells : array of int (n,)
        Flat index of the cells that it runs through; only active ones count.
    area : array (n,)
        True area in each [m2]; it meets the exchange `up`, `side` or `down` as it looks.
    normal : array (3, n)
        Its direction outwards, of length 1 [-].
    distance : array (n,)
        From the cell's middle to it [m]; negative where the middle lies outside.
    """

    cells: NDArray[np.int64]
    area: Array
    normal: Array
    distance: Array


@dataclass(frozen=True, slots=True)
class CutFaces:
    """What of the cells' faces is open, and the surface through cells, for bodies that are no blocks.

    Parameters
    ----------
    open_x : array (nx + 1, ny, nz)
        Share of each face across x through which heat passes [-]: to the matter beyond, or where nothing is
        beyond, to a flat bare face there.
    open_y : array (nx, ny + 1, nz)
        The same across y.
    open_z : array (nx, ny, nz + 1)
        The same across z.
    surface : CutSurface
        What runs through cells.
    above : array, broadcast to (nx, ny, nz)
        From a cell's middle to a flat bare face above it [m]; half its spacing if left out.
    """

    open_x: NDArray[Any]
    open_y: NDArray[Any]
    open_z: NDArray[Any]
    surface: CutSurface
    above: Array | None = None

    def opened(self, axis: int) -> NDArray[Any]:
        """Open shares of the faces across an axis."""
        return (self.open_x, self.open_y, self.open_z)[axis]


@dataclass(frozen=True, eq=False)
class Problem:
    """Heat conduction with one reaction per cell on a rectilinear grid.

    Parameters
    ----------
    x, y, z : array (n + 1,)
        Edges of the cells along each axis [m], rising.
    volumetric_heat_capacity : array (nx, ny, nz)
        [J/(m3 K)]; cells that are not active may hold anything.
    conductivity : array (nx, ny, nz)
        [W/(m K)].
    heat : array (nx, ny, nz)
        Heat set free per unit of conversion [J/m3]; 0 where nothing reacts.
    active : array of bool (nx, ny, nz)
        Cells that hold matter; the others are empty and take no part.
    surfaces : Surfaces
        What goes on at bare faces.
    rate : callable
        Compiled rate law ``rate(temperature, conversion, parameters) -> 1/s``, see `rate_law`.
    parameters : array (laws, n)
        One row of parameters per kind of reacting matter.
    law : array of int (nx, ny, nz)
        Row of `parameters` that a reacting cell uses; all 0 if left out.
    cut : CutFaces
        Surface through cells, see `cut_cells`. Capacity and heat given are then those of what the cell
        holds, over the volume of the cell. Left out where all faces are grid planes.
    source : callable
        Further heat source [W/m3] as an array (nx, ny, nz), called with the time [s].

    Examples
    --------
    >>> ones = np.ones((1, 1, 4))
    >>> bar = Problem(np.array([0, 1.0]), np.array([0, 1.0]), np.linspace(0, 1, 5), ones, ones)
    >>> bar.shape
    (1, 1, 4)
    """

    x: Array
    y: Array
    z: Array
    volumetric_heat_capacity: Array
    conductivity: Array
    heat: Array = None  # type: ignore[assignment]
    active: Mask = None  # type: ignore[assignment]
    surfaces: Surfaces = field(default_factory=Surfaces)
    rate: Any = None
    parameters: Array = None  # type: ignore[assignment]
    law: NDArray[np.int64] = None  # type: ignore[assignment]
    cut: CutFaces | None = None
    source: Callable[[float], Array] | None = None

    def __post_init__(self) -> None:
        for axis in "xyz":
            edges = np.ascontiguousarray(getattr(self, axis), dtype=float)
            if edges.ndim != 1 or edges.size < 2 or not np.all(np.diff(edges) > 0):
                raise UserError(f"grid edges along {axis} do not rise", allowed="two or more rising numbers")
            object.__setattr__(self, axis, edges)
        shape = self.shape
        fill = {"heat": (0.0, float), "active": (True, bool), "law": (0, np.int64)}
        for name in ("volumetric_heat_capacity", "conductivity", *fill):
            value, kind = fill.get(name, (None, float))
            given = getattr(self, name)
            array = np.full(shape, value, kind) if given is None else np.ascontiguousarray(given, dtype=kind)
            if array.shape != shape:
                raise UserError(f"{name} has shape {array.shape}", allowed=f"the grid's {shape}")
            object.__setattr__(self, name, array)
        rows = [[0.0]] if self.parameters is None else self.parameters
        object.__setattr__(self, "parameters", np.atleast_2d(np.ascontiguousarray(rows, dtype=float)))
        self._check()
        if self.cut is not None and self.cut.open_x.shape != (shape[0] + 1, *shape[1:]):
            raise UserError(
                f"cut faces have shape {self.cut.open_x.shape}", allowed=f"fit for the grid's {shape}"
            )

    def _check(self) -> None:
        for name in ("volumetric_heat_capacity", "conductivity"):
            held = getattr(self, name)[self.active]
            if not np.all(np.isfinite(held) & (held > 0)):
                raise UserError(f"{name} of an active cell is not positive", allowed="finite numbers above 0")
        if self.rate is None and np.any(self.reacting):
            raise UserError("cells react but no rate law is given", todo="pass rate= and parameters=")
        rows = self.law[self.reacting]
        if rows.size and not (rows.min() >= 0 and rows.max() < self.parameters.shape[0]):
            raise UserError("law names a row that parameters does not have")

    @property
    def shape(self) -> tuple[int, int, int]:
        """Number of cells along each axis."""
        return self.x.size - 1, self.y.size - 1, self.z.size - 1

    @property
    def reacting(self) -> Mask:
        """Cells that hold reacting matter."""
        return np.asarray(self.active & (self.heat != 0.0))

    @property
    def cell_volumes(self) -> Array:
        """Volume of every cell [m3]."""
        dx, dy, dz = np.diff(self.x), np.diff(self.y), np.diff(self.z)
        return dx[:, None, None] * dy[None, :, None] * dz[None, None, :]
