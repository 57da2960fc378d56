"""One liquid that rises in the cavity or around the master, level or tilted."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
import numpy.typing as npt

from pourwright.geometry import Mesh, Pocket
from pourwright.geometry.frames import turn_to
from pourwright.geometry.mesh import Floats
from pourwright.geometry.ways_up.pockets import Surface

Which = Literal["casting", "hung", "screwed"]
Truths = npt.NDArray[np.bool_]
LEVEL = 1e-6
"""Heights that differ by less are one [m]."""
_AXIS = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True, eq=False)
class Rising:
    """A liquid that rises.

    Parameters
    ----------
    mesh : Mesh
        The piece as it is cast, z up.
    which : str
        "casting": in the cavity, air leaves at its open face. "hung": rubber around the master, open face up.
        "screwed": rubber around the master that stands on its board, open face down; z then points down.
    rim : array (n, 3), optional
        Corners of the box's rim as cast, for a screwed master [m]: the rubber stays below them.
    ready : Surface, optional
        The mesh made ready already.
    """

    mesh: Mesh
    which: Which
    rim: Floats | None = None
    ready: Surface | None = None

    @property
    def outside(self) -> bool:
        """Whether it rises around the body."""
        return self.which != "casting"

    @property
    def up(self) -> Floats:
        """Direction it rises in, level."""
        return -_AXIS if self.which == "screwed" else _AXIS

    @cached_property
    def surface(self) -> Surface:
        """Made ready once."""
        return Surface(self.mesh) if self.ready is None else self.ready

    @cached_property
    def mouth(self) -> Truths:
        """Corners of the open face, (n,)."""
        return np.asarray(self.mesh.vertices[:, 2] >= self.mesh.bounds[1, 2] - LEVEL)

    @cached_property
    def edge(self) -> Floats:
        """Points that the liquid must not rise over, (n, 3) [m]."""
        if self.which == "screwed":
            return np.empty((0, 3)) if self.rim is None else self.rim
        return self.mesh.vertices[self.mouth]

    @property
    def board(self) -> float:
        """Height along up that a screwed master stands at [m]; minus infinity where there is no board."""
        return float((self.mesh.vertices @ self.up).min()) if self.which == "screwed" else -np.inf

    def tilted(self, side: float, angle: float) -> Floats:
        """Direction that points up once one side of the mold is lifted.

        Parameters
        ----------
        side : float
            From the x axis as cast [rad].
        angle : float
            By how much it is lifted [rad].

        Returns
        -------
        array (3,)
        """
        across = np.array([np.cos(side), np.sin(side), 0.0])
        return np.asarray(np.cos(angle) * self.up + np.sin(angle) * across)

    def caught(self, up: Floats) -> tuple[Pocket, ...]:
        """Pockets with a direction up, however small; those that the board closes are left out.

        Parameters
        ----------
        up : array (3,)
            Of length 1.

        Returns
        -------
        tuple of Pocket
        """
        opened = None if self.outside else self.mouth
        found = self.surface.pockets(turn_to(up), outside=self.outside, opened=opened)
        return tuple(pocket for pocket in found if not self.basin[self.top_corner(pocket, up)])

    def top_corner(self, pocket: Pocket, up: Floats) -> int:
        """Number of the highest corner of a pocket's walls."""
        return int(pocket.vertices[(self.mesh.vertices[pocket.vertices] @ up).argmax()])

    @cached_property
    def basin(self) -> Truths:
        """Corners in hollows that the board closes, so that no rubber comes in, (n,)."""
        closed = np.zeros(len(self.mesh.vertices), dtype=bool)
        if self.which == "screwed":
            for pocket in self.surface.pockets(turn_to(self.up), outside=True):
                if pocket.lip <= self.board + LEVEL:
                    closed[pocket.vertices] = True
        return closed

    def blocked(self, pocket: Pocket) -> bool:
        """Whether a tilted pocket would be closed off under the board's edge, where no air can pass."""
        return float(pocket.lip_place @ self.up) <= self.board + LEVEL
