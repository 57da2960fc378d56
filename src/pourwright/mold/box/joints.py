"""How the upright panels of a box meet at its corners."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from pourwright.mold.box.defaults import BOX


@dataclass(frozen=True, kw_only=True)
class Joint:
    """One way in which the end of a box meets its side, which laps it.

    Parameters
    ----------
    name : str
        As it is written in the job file.
    words : str
        What is done.
    depth : float
        How deep the end reaches into the side, in thicknesses of the board [-].
    past : float
        How far the side goes on beyond the end, in thicknesses [-].
    flange : float
        How far it goes on besides, for the jaws of clamps [m].
    holds_end : bool
        Whether the side itself keeps the end from being pushed out.
    """

    name: str
    words: str
    depth: float = 0.0
    past: float = 0.0
    flange: float = 0.0
    holds_end: bool = False

    def side_length(self, inside: float, thickness: float) -> float:
        """Length of a side [m] for a box so long inside, of board so thick [m]."""
        return inside + 2.0 * (thickness * (1.0 + self.past) + self.flange)

    def end_length(self, inside: float, thickness: float) -> float:
        """Length of an end [m] for a box so wide inside, of board so thick [m]."""
        return inside + 2.0 * thickness * self.depth

    def side_outline(self, inside: float, thickness: float) -> list[tuple[float, float]]:
        """Outline of a side seen from above, its inner face towards +y, middle at 0, counter-clockwise.

        Parameters
        ----------
        inside : float
            Length of the box inside [m].
        thickness : float
            Of the board [m].

        Returns
        -------
        list of (x, y)
            [m]; with the step or groove that takes the end.
        """
        far, near = self.side_length(inside, thickness) / 2.0, inside / 2.0
        half, cut = thickness / 2.0, thickness * (0.5 - self.depth)
        step = [(near + thickness, half), (near + thickness, cut)] if self.past else [(far, cut)]
        right = [(far, -half), *([(far, half)] if self.past else []), *step, (near, cut), (near, half)]
        if not self.depth:
            right = [(far, -half), (far, half)]
        return [*right, *((-x, y) for x, y in reversed(right))]


BUTT = Joint(name="butt", words="butt joints: the sides lap the ends, nothing is cut into them")
JOINTS: Mapping[str, Joint] = MappingProxyType(
    {
        joint.name: joint
        for joint in (
            BUTT,
            Joint(
                name="flange",
                words="flanges: the sides lap the ends and go on behind them; a lath along each upright edge "
                "of the ends, and clamps that squeeze lath and side together",
                flange=BOX["flange"].value,
            ),
            Joint(
                name="rabbet",
                words="rabbets: the ends stand in a step, half the board deep, along the edges of the sides",
                depth=0.5,
            ),
            Joint(
                name="housing",
                words="housings: the ends stand in grooves of the sides, a third of the board deep, and the "
                "sides go on behind them",
                depth=1.0 / 3.0,
                past=1.0,
                holds_end=True,
            ),
        )
    }
)
"""Joints by their names; depths and lengths are common practice."""
