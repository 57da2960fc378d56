"""What lifts a space block in the liquid rubber, and the screws that hold it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.foundation.notation import UnitSystem
from pourwright.mold.blocks.defaults import BLOCKS, LENGTHS_METRIC, LENGTHS_US
from pourwright.mold.choices import MoldChoices
from pourwright.mold.screw_hold import Wood, wood_of, working_pull
from pourwright.mold.space_block import SpaceBlock
from pourwright.physics.constants import STANDARD_GRAVITY


@dataclass(frozen=True, slots=True)
class Load:
    """Forces on one block.

    Parameters
    ----------
    lift : float
        Archimedes' lift less its weight, drowned in liquid rubber [N]; negative where it sinks.
    weight : float
        Before there is any rubber [N].
    """

    lift: float
    weight: float


@dataclass(frozen=True, slots=True)
class Screws:
    """Screws through a panel into a block.

    Parameters
    ----------
    along, up : int
        In a row along the panel, and rows above one another.
    length : float
        [m]
    bears : float
        What one bears, along or across [N].
    """

    along: int
    up: int
    length: float
    bears: float

    @property
    def number(self) -> int:
        """All of them."""
        return self.along * self.up


def load_on(volume: float, wood: float, rubber: float) -> Load:
    """Weigh a block in air and in liquid rubber.

    Parameters
    ----------
    volume : float
        [m3]
    wood, rubber : float
        Densities [kg/m3].

    Returns
    -------
    Load

    Examples
    --------
    >>> found = load_on(0.001, 750.0, 1100.0)
    >>> print(f"{found.lift:.2f} N, {found.weight:.2f} N")
    3.43 N, 7.35 N
    """
    return Load((rubber - wood) * volume * STANDARD_GRAVITY, wood * volume * STANDARD_GRAVITY)


def pull_on_screws(load: Load, size: tuple[float, float, float], *, upright: bool) -> float:
    """Force that the screws of a block bear, before any safety factor.

    Parameters
    ----------
    load : Load
        On the block.
    size : tuple of float
        Along the panel, up the panel, off the panel [m].
    upright : bool
        Whether the panel stands; else the block sits on the base board.

    Returns
    -------
    float
        On the base board the lift. On an upright panel the larger of lift and weight F acts across the
        screws and tips the block about its edge: F (1 + d / (2 * 3/4 h)), d off the panel, h up it; the
        screw farthest from that edge stands at three quarters of h [N].

    Notes
    -----
    Rubber is reckoned to have crept behind the block, as with the master; a tight one is pressed on.
    """
    if not upright:
        return max(load.lift, 0.0)
    return max(load.lift, load.weight) * (1.0 + size[2] / (1.5 * size[1]))


def screws_of(
    size: tuple[float, float, float], panel: float, force: float, wood: Wood, lengths: Sequence[float]
) -> Screws:
    """Choose the screws of one block.

    Parameters
    ----------
    size : tuple of float
        Along the panel, up the panel, off the panel [m].
    panel : float
        Thickness of the panel they go through [m].
    force : float
        On all of them together, with its safety factor [N].
    wood : Wood
        That they are in.
    lengths : sequence of float
        As sold, shortest first [m].

    Returns
    -------
    Screws
        The shortest with the wanted thread in the block, else the longest that stays inside it; one for
        every spacing along either side, two at least, more where the force asks for it.

    Examples
    --------
    >>> screws_of((0.30, 0.26, 0.036), 0.018, 20.0, Wood(density=750.0), (0.03, 0.04, 0.05)).number
    4
    """
    wanted, most = panel + BLOCKS["screw_grip"].value, panel + size[2] - BLOCKS["screw_cover"].value
    inside = [length for length in lengths if panel < length <= most] or [most]
    length = next((each for each in inside if each >= wanted - 1e-9), inside[-1])
    bears = bears_of(length - panel, wood)
    along, up = (max(math.ceil(side / BLOCKS["screw_spacing"].value - 1e-9), 1) for side in size[:2])
    wide = size[0] >= size[1]
    if along * up < BLOCKS["least_screws"].value:
        along, up = (2, 1) if wide else (1, 2)
    while along * up * bears < force:
        along, up = (along + 1, up) if wide else (along, up + 1)
    return Screws(along, up, length, bears)


def screws_chosen(choices: MoldChoices, block: SpaceBlock, size: tuple[float, float, float]) -> Screws:
    """Choose the screws of a block of a mold.

    Parameters
    ----------
    choices : MoldChoices
        Boards, rubber, safety factor, and the lengths that are sold.
    block : SpaceBlock
        The block.
    size : tuple of float
        Along the panel, up the panel, off the panel [m].

    Returns
    -------
    Screws
    """
    density = choices.block_board.density.value
    load = load_on(block.volume, density, choices.rubber.density.value)
    force = choices.safety_factor * pull_on_screws(load, size, upright=block.wall != "base")
    lengths = LENGTHS_METRIC if choices.units is UnitSystem.METRIC else LENGTHS_US
    return screws_of(size, choices.thickness, force, wood_of(choices.block_board), lengths)


def bears_of(grip: float, wood: Wood) -> float:
    """What one screw bears, along or across.

    Parameters
    ----------
    grip : float
        Thread in the block [m].
    wood : Wood
        Of the block.

    Returns
    -------
    float
        What it may be pulled with in the face of a board, the weakest way; across it bears no less [N].
    """
    return working_pull(wood, BLOCKS["screw_diameter"].value, max(grip, 0.005), weak=False)
