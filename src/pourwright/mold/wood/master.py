"""The master that is glued up from boards: its layers from the bottom up, and what they come to."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pourwright.materials.records import Board
from pourwright.mold.wood.master_coats import Sealing
from pourwright.mold.wood.part import Point, WoodPart

Kind = Literal["stacked", "sliced"]


@dataclass(frozen=True, slots=True, kw_only=True)
class MasterLayer:
    """One layer of boards.

    Parameters
    ----------
    low, high : float
        From where to where it reaches along the axis that the boards lie across [m], as poured.
    parts : tuple of WoodPart
        What lies side by side in it.
    corners : tuple of point
        Left lower corner of each part without its oversize [m], along the two axes of the boards' faces.
    planed : bool
        Whether the board has to be planed thinner.
    sand : float
        Farthest that the sawn outline stands away from the true surface, level with the boards' faces [m].
    """

    low: float
    high: float
    parts: tuple[WoodPart, ...]
    corners: tuple[Point, ...]
    planed: bool
    sand: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Two parts that are glued face on face.

    Parameters
    ----------
    below, above : str
        Their marks.
    area : float
        Where their faces meet [m2].
    """

    below: str
    above: str
    area: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MasterWood:
    """A master from boards.

    Parameters
    ----------
    kind : str
        "stacked": the boards' own faces and sawn edges are the shape; "sliced": steps are left to sand.
    axis : str
        x, y or z of the pour's frame: the boards lie across it.
    board : Board
        What all of it is sawn from.
    layers : tuple of MasterLayer
        From the bottom up, or along the axis.
    joints : tuple of Joint
        What is glued on what.
    solid : float
        Volume of the shape itself [m3].
    sealing : Sealing
        What is sealed, and with how much.
    """

    kind: Kind
    axis: str
    board: Board
    layers: tuple[MasterLayer, ...]
    joints: tuple[Joint, ...]
    solid: float
    sealing: Sealing

    @property
    def parts(self) -> tuple[WoodPart, ...]:
        """All parts, from the first layer to the last."""
        return tuple(part for layer in self.layers for part in layer.parts)

    @property
    def plane(self) -> tuple[str, str]:
        """Which axes of the pour's frame the parts' length and width lie along."""
        return {"x": ("y", "z"), "y": ("z", "x"), "z": ("x", "y")}[self.axis]

    @property
    def glued(self) -> float:
        """All faces that take glue, each once for the pair [m2]."""
        return sum(joint.area for joint in self.joints)

    @property
    def volume(self) -> float:
        """Of the wood once it is glued up, before any sanding, without the stacked parts' oversize [m3]."""
        return sum(part.volume for part in self.parts)

    @property
    def mass(self) -> float:
        """Of that wood [kg]."""
        return self.volume * self.board.density.value

    @property
    def solid_mass(self) -> float:
        """Of the shape itself, from this board all through [kg]: what floats in the rubber."""
        return self.solid * self.board.density.value

    @property
    def sand(self) -> float:
        """The worst layer's step [m]."""
        return max(layer.sand for layer in self.layers)
