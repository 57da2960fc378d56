"""What was chosen about space blocks, in SI."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.materials.records import Board
from pourwright.mold.defaults import DEFAULTS


@dataclass(frozen=True, kw_only=True)
class BlockChoices:
    """Stock and effort of space blocks.

    Parameters
    ----------
    board : record, optional
        That they are sawn from; the box's own where left out.
    stock : tuple of float
        Thicknesses of the board [m]; its usual one where empty.
    most : int
        Blocks at most.
    least : float
        Shortest side [m].
    sawing_time : float
        Of one block [s].
    hour_price : float, optional
        Of work [money/s].
    rubber_price : float, optional
        [money/kg].
    seed : int
        Of the search.
    where : str
        Where the shortest side stands in the job, for an error.
    """

    board: Board | None = None
    stock: tuple[float, ...] = ()
    most: int = int(DEFAULTS["most_blocks"].value)
    least: float = DEFAULTS["least_block"].value
    sawing_time: float = DEFAULTS["sawing_time"].value
    hour_price: float | None = None
    rubber_price: float | None = None
    seed: int = 0
    where: str = ""

    def worth(self, density: float) -> float:
        """Least volume that a block must displace to be worth its sawing.

        Parameters
        ----------
        density : float
            Of the rubber [kg/m3].

        Returns
        -------
        float
            Rubber that costs as much as the sawing where both prices are known, else common practice [m3].
        """
        if not self.hour_price or not self.rubber_price:
            return DEFAULTS["least_displaced"].value
        return self.sawing_time * self.hour_price / (density * self.rubber_price)
