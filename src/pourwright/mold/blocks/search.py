"""The search for space blocks: the largest first, then some taken out and the gap filled another way."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.geometry.cuboid_kernels import largest_cuboids
from pourwright.mold.blocks.room import BlockRoom

Integers = NDArray[np.int64]
ROUNDS, CHOICES = 240, 12


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
    draw = np.random.default_rng(seed)
    best = held = _grown(room, [], most, worth, None)
    for _ in range(rounds if len(held) else 0):
        kept = _ruined(held, draw)
        tried = _grown(room, kept, most, worth, draw)
        if _total(room, tried) >= _total(room, held) * (1.0 - 1e-12):
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
    """Add the largest block again and again; now and then one of the next largest."""
    blocks, free = list(kept), room.free.copy()
    for block in blocks:
        _take(free, block)
    while len(blocks) < most:
        many = 1 if draw is None else CHOICES
        corners, volumes = largest_cuboids(free, *room.grid.axes, room.held, room.least, room.slack, many)
        corners = corners[volumes >= worth]
        if not len(corners):
            break
        pick = 0 if draw is None else min(int(draw.geometric(0.5)) - 1, len(corners) - 1)
        blocks.append(corners[pick])
        _take(free, corners[pick])
    return blocks


def _take(free: NDArray[np.bool_], block: Integers) -> None:
    free[block[0] : block[1], block[2] : block[3], block[4] : block[5]] = False
