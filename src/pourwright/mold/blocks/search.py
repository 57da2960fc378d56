"""The search for space blocks: two at a time, then some taken out and the gap filled another way."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from pourwright.geometry.cuboid_kernels import largest_cuboid
from pourwright.geometry.pair_kernels import largest_pair
from pourwright.mold.blocks.room import BlockRoom

Integers = NDArray[np.int64]
Array = NDArray[np.float64]
Lines = tuple[Array, Array, Array]
WORK, FEWEST, ROUNDS = 5e6, 100, 1000
"""Rectangles of columns that all rounds together go through, about a second; rounds at least and most."""
ASKEW, COOLING, GONE = (0.0, 0.2, 0.4, 0.7), 0.01, 3
LITTLE, ROUND_OFF = 1e-8, 1e-9
"""Least worth of one block less [m3]; share below which volumes are the same [-]."""
SINGLE, PAIRS, FIRST_OF_PAIR = range(3)


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


def fill_room(room: BlockRoom, most: int, worth: float, seed: int = 0, rounds: int | None = None) -> Filled:
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
    rounds : int, optional
        How often that is tried; more in small rooms where left out.

    Returns
    -------
    Filled
        What saves most beyond its sawing, of all that was tried.

    Notes
    -----
    Ruin and recreate: Schrimpf and others, J. Comput. Phys. 159 (2000) 139. The gap is filled with the
    largest block, with the largest two together, or with the larger of those two: looking one block ahead
    leaves room for the next. A round that is hardly worse is kept, ever less so.
    """
    draw = np.random.default_rng(seed)
    count = int(np.clip(WORK / room.work, FEWEST, ROUNDS)) if rounds is None else rounds
    best = held = _grown(room, [], most, worth, (0.0, FIRST_OF_PAIR), draw)
    for number in range(count if held else 0):
        how = float(draw.choice(ASKEW)), int(draw.integers(3))
        tried = _grown(room, _ruined(held, draw), most, worth, how, draw)
        slack = COOLING * (1.0 - number / count) * draw.random()
        if _saves(room, tried, worth) >= _saves(room, held, worth) * (1.0 - slack):
            held = tried
        if _saves(room, held, worth) > _saves(room, best, worth) * (1.0 + ROUND_OFF):
            best = held
    corners = np.array(best, dtype=np.int64).reshape(-1, 6)
    return Filled(corners, _total(room, best))


def _saves(room: BlockRoom, blocks: list[Integers], worth: float) -> float:
    """Volume beyond what is worth the sawing of all [m3]; of the same volume in fewer blocks it is more."""
    return _total(room, blocks) - max(worth, LITTLE) * len(blocks)


def _total(room: BlockRoom, blocks: list[Integers]) -> float:
    return float(room.volume(np.array(blocks)).sum()) if blocks else 0.0


def _ruined(blocks: list[Integers], draw: np.random.Generator) -> list[Integers]:
    """Take out one block and its nearest neighbours."""
    places = np.array([(block[0::2] + block[1::2]) / 2.0 for block in blocks])
    middle = places[draw.integers(len(blocks))]
    gone = int(draw.integers(1, min(len(blocks), GONE) + 1))
    order = np.argsort(((places - middle) ** 2).sum(axis=1), kind="stable")
    return [blocks[n] for n in sorted(order[gone:])]


def _grown(
    room: BlockRoom, kept: list[Integers], most: int, worth: float, how: tuple[float, int],
    draw: np.random.Generator,
) -> list[Integers]:  # fmt: skip
    """Add blocks until none is worth it; how: by how much sizes are drawn askew, and which way is chosen."""
    blocks, free = list(kept), room.free.copy()
    for block in blocks:
        _take(free, block)
    spread, way = how
    while len(blocks) < most:
        x, y, z = room.grid.axes
        weighed = (_askew(x, spread, draw), _askew(y, spread, draw), _askew(z, spread, draw))
        added = _next(room, free, weighed, way if most - len(blocks) > 1 else SINGLE, worth)
        if not added:
            break
        for block in added:
            blocks.append(block)
            _take(free, block)
    return blocks


def _next(room: BlockRoom, free: NDArray[np.bool_], weighed: Lines, way: int, worth: float) -> list[Integers]:
    """The next block or two, as far as they are worth their sawing."""
    asked = (free, room.grid.axes, weighed, room.held, room.least, room.slack)
    found = largest_cuboid(*asked)[None] if way == SINGLE else _joined(room, largest_pair(*asked))
    sizes = room.volume(found)
    order = [n for n in np.argsort(-sizes, kind="stable") if found[n].any() and sizes[n] >= worth]
    return [found[n] for n in (order[:1] if way == FIRST_OF_PAIR else order)]


def _joined(room: BlockRoom, pair: Integers) -> Integers:
    """Two blocks that make up one block are one."""
    around = np.empty(6, dtype=np.int64)
    around[0::2], around[1::2] = pair[:, 0::2].min(axis=0), pair[:, 1::2].max(axis=0)
    whole = room.volume(pair).sum()
    odd = ((around[0::2] <= room.slack) & (room.slack < around[1::2])).all()
    if pair.any(axis=1).all() and not odd and room.volume(around)[0] <= whole * (1.0 + ROUND_OFF):
        return around[None]
    return pair


def _askew(axis: Array, spread: float, draw: np.random.Generator) -> Array:
    """An axis with its steps longer or shorter by chance."""
    if spread == 0:
        return axis.copy()  # writable like the others: every kind of array is a kernel to compile
    widths = np.diff(axis) * draw.lognormal(0.0, spread, axis.size - 1)
    return np.concatenate([[0.0], np.cumsum(widths)])


def _take(free: NDArray[np.bool_], block: Integers) -> None:
    free[block[0] : block[1], block[2] : block[3], block[4] : block[5]] = False
