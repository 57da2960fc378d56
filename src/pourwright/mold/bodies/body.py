"""One body of the mold, and all of them together."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from pourwright.geometry import Mesh, measure

Kind = Literal["rubber", "block", "master", "panel"]
Size = tuple[float, float, float]


@dataclass(frozen=True, slots=True, eq=False)
class Body:
    """A body in the frame of the pour: z up as cast, z = 0 at the cavity's floor, x and y centred.

    Parameters
    ----------
    kind : str
        "rubber", "block", "master" or "panel".
    name : str
        As it is called in the shop; several panels may share one.
    mesh : Mesh
        Closed, outward oriented [m].
    place : str
        Where it sits: left, right, front, back, below or above; empty in the middle.
    """

    kind: Kind
    name: str
    mesh: Mesh
    place: str = ""

    @property
    def volume(self) -> float:
        """Of its own mesh [m3]."""
        return measure(self.mesh).volume

    @property
    def size(self) -> Size:
        """Extent along x, y, z [m]."""
        x, y, z = (float(side) for side in self.mesh.bounds[1] - self.mesh.bounds[0])
        return (x, y, z)


@dataclass(frozen=True, slots=True, eq=False)
class MoldBodies:
    """Rubber, wood and master as they are when the rubber has set, and the panels around them.

    Parameters
    ----------
    rubber, master : Body
        The set rubber, open at the mouth; what it was poured around.
    blocks, panels : tuple of Body
        Space blocks in their order; every panel of the box in its place.
    air : Mesh or None
        Between the rubber and the rim [m]; None where the rubber ends at the rim.
    box : Mesh
        All the room inside the panels [m].
    """

    rubber: Body
    master: Body
    blocks: tuple[Body, ...]
    panels: tuple[Body, ...]
    air: Mesh | None
    box: Mesh

    def __iter__(self) -> Iterator[Body]:
        """Every body that can be touched, from the inside out."""
        return iter((self.master, self.rubber, *self.blocks, *self.panels))

    @property
    def air_volume(self) -> float:
        """Between the rubber and the rim [m3]."""
        return 0.0 if self.air is None else measure(self.air).volume

    @property
    def wood_volume(self) -> float:
        """Of all space blocks [m3]."""
        return sum(block.volume for block in self.blocks)

    @property
    def box_volume(self) -> float:
        """Inside the panels [m3]."""
        return measure(self.box).volume

    @property
    def missing(self) -> float:
        """Share of the box that the bodies in it do not add up to [-]."""
        filled = self.rubber.volume + self.wood_volume + self.master.volume + self.air_volume
        return filled / self.box_volume - 1.0
