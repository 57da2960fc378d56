"""How much a body holds up to a level, exactly, and the level for a volume."""

from dataclasses import dataclass
from typing import overload

import numpy as np
import numpy.typing as npt

from pourwright.geometry.kept import kept
from pourwright.geometry.level_kernels import below, bin_faces, volumes_below
from pourwright.geometry.mesh import Floats, Integers, Mesh


@dataclass(frozen=True, slots=True, eq=False)
class LevelVolume:
    """The curve V(z) of a closed mesh: continuous, cubic between vertex heights, never approximated.

    Make it with ``level_volume``. Each value is summed from the faces that reach into its slab, so it is
    exact to round-off at any z, also where the section area jumps.

    Parameters
    ----------
    mesh : Mesh
        Closed; nested reversed bodies are holes.
    bottom, top : float
        Lowest and highest height [m].
    edges : array (n + 1,)
        Slab edges above the middle [m].
    starts, listed, cover, moment : arrays
        Which faces reach into which slab, and area and moment of those wholly below it.
    edge_volumes : array (n + 1,)
        V at the slab edges [m3].
    """

    mesh: Mesh
    bottom: float
    top: float
    edges: Floats
    starts: Integers
    listed: Integers
    cover: Floats
    moment: Floats
    edge_volumes: Floats

    @property
    def total(self) -> float:
        """The whole volume [m3]."""
        return float(self.edge_volumes[-1])

    @property
    def knots(self) -> Floats:
        """Distinct vertex heights, rising [m]; between two of them V is one cubic."""
        return _knots(self.mesh)

    @property
    def ledges(self) -> Floats:
        """Heights of horizontal faces, where the section area jumps, rising [m]."""
        return _ledges(self.mesh)

    @overload
    def volume(self, z: float) -> float: ...
    @overload
    def volume(self, z: Floats) -> Floats: ...
    def volume(self, z: float | Floats) -> float | Floats:
        """Volume below a level.

        Parameters
        ----------
        z : float or array
            Level [m]; any, also outside the body.

        Returns
        -------
        float or array
            [m3]

        Examples
        --------
        >>> from pourwright.geometry import cone
        >>> curve = level_volume(cone(0.1, 0.1, 0.4))
        >>> round(curve.volume(0.1) / curve.total, 12)
        0.25
        """
        return self._evaluate(z, 0, open_=False)

    @overload
    def area(self, z: float, *, below: bool = False) -> float: ...
    @overload
    def area(self, z: Floats, *, below: bool = False) -> Floats: ...
    def area(self, z: float | Floats, *, below: bool = False) -> float | Floats:
        """Area of the horizontal section at a level, the slope of V there.

        Parameters
        ----------
        z : float or array
            Level [m].
        below : bool
            At a horizontal face, take the value just below it instead of just above.

        Returns
        -------
        float or array
            [m2]

        Examples
        --------
        >>> from pourwright.geometry import box
        >>> curve = level_volume(box([0.2, 0.1, 0.3]))
        >>> round(curve.area(0.3, below=True), 9), round(curve.area(0.3), 9)
        (0.02, 0.0)
        """
        return self._evaluate(z, 1, open_=below)

    @overload
    def height(self, volume: float) -> float: ...
    @overload
    def height(self, volume: Floats) -> Floats: ...
    def height(self, volume: float | Floats) -> float | Floats:
        """Level up to which a volume fills the body, to 1e-12 of its height where the slope allows it.

        Parameters
        ----------
        volume : float or array
            [m3], from 0 to the total.

        Returns
        -------
        float or array
            Level [m].

        Raises
        ------
        ValueError
            When the body does not hold that much.

        Examples
        --------
        >>> from pourwright.geometry import box
        >>> round(level_volume(box([0.2, 0.1, 0.3])).height(0.004), 12)
        0.2
        """
        wanted = np.asarray(volume, dtype=np.float64)
        slack = 1e-12 * abs(self.total)
        if not np.all((wanted >= -slack) & (wanted <= self.total + slack)):
            raise ValueError(f"the body holds {self.total:.9g} m3, so no level fits {volume} m3")
        found = np.array([self._inverse(value) for value in wanted.ravel()])
        return float(found[0]) if np.isscalar(volume) or wanted.ndim == 0 else found.reshape(wanted.shape)

    @property
    def _middle(self) -> float:
        return (self.bottom + self.top) / 2

    def _evaluate(self, z: float | Floats, which: int, *, open_: bool) -> float | Floats:
        levels = np.asarray(z, dtype=np.float64) - self._middle
        found = np.array([self._at(level, open_=open_)[which] for level in levels.ravel()])
        return float(found[0]) if np.isscalar(z) or levels.ndim == 0 else found.reshape(levels.shape)

    def _at(self, level: float, *, open_: bool = False) -> tuple[float, float]:
        if level < self.edges[0]:
            return 0.0, 0.0
        if level > self.edges[-1] or (level == self.edges[-1] and not open_):
            return self.total, 0.0
        slab = int(np.clip(np.searchsorted(self.edges, level, side="right") - 1, 0, self.edges.size - 2))
        # just below a face that closes the slab, the faces of the slab beneath decide
        if open_ and slab > 0 and level == self.edges[slab]:
            slab -= 1
        faces = self.listed[self.starts[slab] : self.starts[slab + 1]]
        mesh = self.mesh
        return below(
            mesh.vertices, mesh.faces, faces, self.cover[slab], self.moment[slab], level, self._middle, open_
        )

    def _inverse(self, wanted: float) -> float:
        """Newton steps, kept inside a shrinking bracket."""
        if wanted <= 0 or wanted >= self.total:
            return self.bottom if wanted <= 0 else self.top
        slab = int(
            np.clip(np.searchsorted(self.edge_volumes, wanted, side="left") - 1, 0, self.edges.size - 2)
        )
        low, high = float(self.edges[slab]), float(self.edges[slab + 1])
        rise = self.edge_volumes[slab + 1] - self.edge_volumes[slab]
        level = (
            low + (high - low) * min(max((wanted - self.edge_volumes[slab]) / rise, 0.0), 1.0)
            if rise
            else low
        )
        finest = 1e-15 * (self.edges[-1] - self.edges[0])
        for _ in range(100):
            volume, area = self._at(level)
            # V never falls, so the bracket holds; where it has a kink Newton alone would swing
            low, high = (level, high) if volume < wanted else (low, level)
            step = (wanted - volume) / area if area > 0 else np.inf
            trial = level + step
            following = trial if low <= trial <= high else (low + high) / 2
            if abs(following - level) <= finest:
                break
            level = following
        return level + self._middle


@kept
def _knots(mesh: Mesh) -> Floats:
    return np.unique(mesh.vertices[mesh.faces, 2])


@kept
def _ledges(mesh: Mesh) -> Floats:
    heights = mesh.vertices[mesh.faces, 2]
    return np.unique(heights[np.ptp(heights, axis=1) == 0, 0])


def level_volume(mesh: Mesh) -> LevelVolume:
    """Prepare the exact curve V(z) of a closed mesh.

    Parameters
    ----------
    mesh : Mesh
        Closed and outward oriented; for the space around a body join the outer mesh with the reversed body.

    Returns
    -------
    LevelVolume

    Notes
    -----
    V(z) = - sum over faces of the integral of (z - z')+ n_z dA: divergence theorem with the field (0, 0,
    z' - z), which vanishes on the cap at z. Each term is cubic between the heights of its face's corners.

    Examples
    --------
    >>> from pourwright.geometry import box, joined
    >>> rubber = joined([box([0.3, 0.3, 0.3]), box([0.1, 0.1, 0.1]).moved([0, 0, 0.1]).reversed()])
    >>> round(level_volume(rubber).volume(0.15), 6)
    0.013
    """
    lower, upper = (float(height) for height in mesh.bounds[:, 2])
    middle = (lower + upper) / 2
    # about as many faces per slab as slabs: both building and asking stay cheap
    slabs = int(np.clip(2 * np.sqrt(len(mesh.faces)), 16, 4096))
    edges = np.linspace(lower - middle, upper - middle, slabs + 1)
    starts, listed, cover, moment = bin_faces(mesh.vertices, mesh.faces, edges, middle)
    volumes = np.maximum.accumulate(volumes_below(mesh.vertices, mesh.faces, edges, middle))
    return LevelVolume(mesh, lower, upper, edges, starts, listed, cover, moment, volumes)


def volume_at_levels(mesh: Mesh, levels: npt.ArrayLike) -> Floats:
    """Volume below many levels in one sweep over the faces.

    Parameters
    ----------
    mesh : Mesh
        Closed and outward oriented.
    levels : array (n,)
        Levels in any order [m].

    Returns
    -------
    array (n,)
        [m3]

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> volume_at_levels(box([0.2, 0.1, 0.3]), [0.1, 0.2, 0.5]).round(6).tolist()
    [0.002, 0.004, 0.006]
    """
    heights = np.asarray(levels, dtype=np.float64)
    middle = float(mesh.bounds[:, 2].mean())
    order = np.argsort(heights, kind="stable")
    volumes = np.empty(heights.size)
    volumes[order] = volumes_below(mesh.vertices, mesh.faces, heights[order] - middle, middle)
    return volumes
