"""What lifts a space block at every level, and how far that loads the screws in it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from pourwright.mold.blocks.defaults import BLOCKS
from pourwright.mold.blocks.hold import Screws, screws_chosen
from pourwright.mold.choices import MoldChoices
from pourwright.mold.hold.lift import Array, Worst, worst_of
from pourwright.mold.hold.screws import Screw, pull_of, push_of
from pourwright.mold.rubber import RubberPour
from pourwright.mold.screw_hold import wood_of
from pourwright.mold.space_block import SpaceBlock
from pourwright.physics.constants import STANDARD_GRAVITY
from pourwright.physics.screws import DEPTH


@dataclass(frozen=True, kw_only=True)
class HeldBlock:
    """A block in liquid rubber.

    Parameters
    ----------
    block : SpaceBlock
        The wood.
    weight : float
        Its own [N].
    worst : Worst
        Where the lift less the weight is greatest [m], [N]; below 0 it sinks.
    moment : float
        That levers it off its panel, with the safety factor [N m]; 0 on the base board.
    pull : float
        On the row of screws that holds it there, or on all on the base board, with the safety factor [N].
    push : float
        Across all its screws, with the safety factor [N].
    screws : Screws
        As chosen for its size.
    used : float
        Share of what they may bear; above 1 they are too few [-].
    """

    block: SpaceBlock
    weight: float
    worst: Worst
    moment: float
    pull: float
    push: float
    screws: Screws
    used: float


def held_blocks(pour: RubberPour, choices: MoldChoices) -> tuple[HeldBlock, ...]:
    """Reckon every space block of a mold.

    Parameters
    ----------
    pour : RubberPour
        With its blocks.
    choices : MoldChoices
        Rubber, boards, safety factor.

    Returns
    -------
    tuple of HeldBlock
        In the order of the blocks.

    Notes
    -----
    Rubber is taken to creep in everywhere behind and below a block. Before it comes, the same screws carry
    the block's weight, unless it stands on the board; the worse of the two counts.
    """
    return tuple(_held(pour, block, choices) for block in pour.blocks)


def block_lift(pour: RubberPour, block: SpaceBlock, level: float | Array, density: float) -> Array:
    """Lift on a block with rubber all round it.

    Parameters
    ----------
    pour : RubberPour
        The pour.
    block : SpaceBlock
        In its place.
    level : float or array
        Rubber level above the box's floor [m].
    density : float
        Of the liquid rubber [kg/m3].

    Returns
    -------
    array
        [N]
    """
    bottom, top = pour.in_box(block)
    wet = np.clip(np.asarray(level, dtype=float) - bottom, 0.0, top - bottom)
    return np.asarray(density * STANDARD_GRAVITY * block.size[0] * block.size[1] * wet)


def _held(pour: RubberPour, block: SpaceBlock, choices: MoldChoices) -> HeldBlock:
    density = choices.rubber.density.value
    weight = block.volume * choices.block_board.density.value * STANDARD_GRAVITY
    bottom, top = pour.in_box(block)
    levels = np.unique([0.0, bottom, min(top, pour.level_wanted), pour.level_wanted])
    worst = worst_of(lambda level: block_lift(pour, block, level, density) - weight, levels)
    size = on_panel(block)
    screws = screws_chosen(choices, block, size)
    lift = choices.safety_factor * max(worst.force, 0.0)
    if block.wall == "base":
        moment, pull, push, row = 0.0, lift, 0.0, screws.number
    else:
        push = max(lift, choices.safety_factor * weight if bottom > 0.0 else 0.0)
        moment, row = push * size[2] / 2.0, screws.along
        pull = moment / lever(size[1], screws.up)
    return HeldBlock(
        block=block,
        weight=weight,
        worst=worst,
        moment=moment,
        pull=pull,
        push=push,
        screws=screws,
        used=_used(pull / row, push / screws.number, screws, choices),
    )


def on_panel(block: SpaceBlock) -> tuple[float, float, float]:
    """Sizes of a block along its panel, up it, and off it [m]."""
    x, y, z = block.size
    if block.wall == "base":
        return x, y, z
    return (y, z, x) if block.wall in ("left", "right") else (x, z, y)


def lever(height: float, rows: int) -> float:
    """From the edge that a block turns about to the far one of evenly spaced rows of screws [m].

    Parameters
    ----------
    height : float
        Of the block [m].
    rows : int
        Above one another, the outer ones half a spacing from its edges.

    Returns
    -------
    float

    Examples
    --------
    >>> lever(0.2, 1), lever(0.2, 2)
    (0.1, 0.15)
    """
    return height * (1.0 - 0.5 / rows)


def _used(pull: float, push: float, screws: Screws, choices: MoldChoices) -> float:
    """Shares that one screw is pulled and pushed with, added."""
    depth = min(max(screws.length - choices.thickness, DEPTH.low), DEPTH.high)
    screw = Screw(diameter=BLOCKS["screw_diameter"].value, length=screws.length, depth=depth)
    return pull / pull_of(wood_of(choices.block_board), screw) + push / push_of(screw)
