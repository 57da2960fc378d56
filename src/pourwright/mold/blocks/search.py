"""The search for space blocks: the largest first, then some taken out and the gap filled another way."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.geometry.cuboid_kernels import largest_cuboid
from pourwright.mold.blocks.room import BlockRoom

Integers = NDArray[np.int64]
ROUNDS, ASKEW, COOLING = 400, 0.6, 0.02


@dataclass(frozen=True, eq=False)
class Filled:
    """Blocks in cells.

    Parameters
    ----------
    corners : array (n, 6)
        First and last line along x, y and z of each.
    volume : float
        Of all [m3].
    """

    corners: Integers
    volume: float


def fill_room(room: BlockRoom, most: int, worth: float, seed: int = 0, rounds: int = ROUNDS) -> Filled:
    """Fill the room with blocks.

    Parameters
    ----------
    room : BlockRoom
        The box in cells.
    most : int
        Blocks at most.
    worth : float
        Volume that a block must displace to be worth its sawing [m3].
    seed : int
        Of what is taken out, and how the gap is filled.
    rounds : int
        How often that is tried.

    Returns
    -------
    Filled
        The best that was found.

    Notes
    -----
    Ruin and recreate: Schrimpf and others, J. Comput. Phys. 159 (2000) 139. A round that is no worse is kept.
    """
    best = held = _grown(room, [], most, worth, None)
    draw = np.random.default_rng(seed)
    for number in range(rounds if held else 0):
        tried = _grown(room, _ruined(held, draw), most, worth, draw)
        # a little worse is taken now and then, ever less so
        slack = COOLING * (1.0 - number / rounds) * draw.random()
        if _total(room, tried) >= _total(room, held) * (1.0 - slack):
            held = tried
        if _total(room, held) > _total(room, best):
            best = held
    corners = np.array(best, dtype=np.int64).reshape(-1, 6)
    return Filled(corners, _total(room, best))


def _total(room: BlockRoom, blocks: list[Integers]) -> float:
    return float(room.volume(np.array(blocks)).sum()) if blocks else 0.0


def _ruined(blocks: list[Integers], draw: np.random.Generator) -> list[Integers]:
    """Take out one block and its nearest neighbours."""
    places = np.array([(block[0::2] + block[1::2]) / 2.0 for block in blocks])
    middle = places[draw.integers(len(blocks))]
    gone = int(draw.integers(1, min(len(blocks), 5) + 1))
    order = np.argsort(((places - middle) ** 2).sum(axis=1), kind="stable")
    return [blocks[n] for n in sorted(order[gone:])]


def _grown(
    room: BlockRoom, kept: list[Integers], most: int, worth: float, draw: np.random.Generator | None
) -> list[Integers]:
    """Add the largest block again and again; largest by lines that are drawn a little askew."""
    blocks, free = list(kept), room.free.copy()
    for block in blocks:
        _take(free, block)
    x, y, z = lines = room.grid.axes
    while len(blocks) < most:
        weighed = lines if draw is None else (_askew(x, draw), _askew(y, draw), _askew(z, draw))
        block = largest_cuboid(free, lines, weighed, room.held, room.least, room.slack)
        if not block.any() or room.volume(block)[0] < worth:
            break
        blocks.append(block)
        _take(free, block)
    return blocks


def _askew(axis: NDArray[np.float64], draw: np.random.Generator) -> NDArray[np.float64]:
    widths = np.diff(axis) * draw.lognormal(0.0, ASKEW, axis.size - 1)
    return np.concatenate([[0.0], np.cumsum(widths)])


def _take(free: NDArray[np.bool_], block: Integers) -> None:
    free[block[0] : block[1], block[2] : block[3], block[4] : block[5]] = False
