"""From which boards a space block is glued up."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

HAIR = 1e-6


@dataclass(frozen=True, order=True, slots=True)
class GlueUp:
    """Boards of one thickness, face on face; the smallest is the least work.

    Parameters
    ----------
    layers : int
        How many.
    area : float
        Of one of them [m2].
    axis : int
        The side that their thicknesses add up to: 0, 1, 2 along x, y, z.
    board : float
        Thickness of each [m].
    """

    layers: int
    area: float
    axis: int
    board: float


def glue_up(size: tuple[float, float, float], stock: tuple[float, ...]) -> GlueUp:
    """Find the fewest boards that make up a block.

    Parameters
    ----------
    size : tuple of float
        Of the block [m].
    stock : tuple of float
        Thicknesses in the shop [m]; one side of the block is a whole multiple of one of them.

    Returns
    -------
    GlueUp

    Raises
    ------
    ValueError
        Where no side is a multiple of any board.

    Examples
    --------
    >>> glue_up((0.036, 0.100, 0.200), (0.018,)).layers
    2
    >>> glue_up((0.100, 0.036, 0.200), (0.012, 0.018))
    GlueUp(layers=2, area=0.020000000000000004, axis=1, board=0.018)
    """
    return min(_possible(size, stock))


def _possible(size: tuple[float, float, float], stock: tuple[float, ...]) -> Iterator[GlueUp]:
    for axis, side in enumerate(size):
        area = size[axis - 1] * size[axis - 2]
        for board in stock:
            layers = round(side / board)
            if layers and abs(side - layers * board) < HAIR:
                yield GlueUp(layers, area, axis, board)
