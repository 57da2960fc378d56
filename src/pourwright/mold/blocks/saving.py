"""What space blocks save, against what they take."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from pourwright.mold.blocks.glue_up import glue_up
from pourwright.mold.choices import MoldChoices
from pourwright.mold.space_block import SpaceBlock
from pourwright.mold.ways.defaults import AMOUNTS


@dataclass(frozen=True, slots=True)
class Saving:
    """Amounts and money of some blocks; money is None where its price is missing.

    Parameters
    ----------
    volume : float
        That they displace [m3].
    rubber : float
        That need not be mixed [kg].
    rubber_money : float or None
    sawing : float
        Time [s].
    sawing_money : float or None
    """

    volume: float
    rubber: float
    rubber_money: float | None
    sawing: float
    sawing_money: float | None


def saving_of(blocks: Sequence[SpaceBlock], choices: MoldChoices) -> Saving:
    """Weigh rubber against sawing.

    Parameters
    ----------
    blocks : sequence of SpaceBlock
        One or all.
    choices : MoldChoices
        Rubber, allowance, prices and time.

    Returns
    -------
    Saving
    """
    asked = choices.blocks
    volume = sum(block.volume for block in blocks)
    rubber = volume * choices.rubber.density.value * (1 + choices.rubber_pour_allowance)
    sawing = len(blocks) * asked.sawing_time
    return Saving(
        volume, rubber, _times(asked.rubber_price, rubber), sawing, _times(asked.hour_price, sawing)
    )


def board_area(blocks: Sequence[SpaceBlock], stock: tuple[float, ...]) -> float:
    """Board that blocks are sawn from.

    Parameters
    ----------
    blocks : sequence of SpaceBlock
        All.
    stock : tuple of float
        Thicknesses in the shop [m].

    Returns
    -------
    float
        All boards face up, saw cuts and rests in it [m2].
    """
    glued = [glue_up(block.size, stock) for block in blocks]
    return sum(each.layers * each.area for each in glued) * (1 + AMOUNTS["waste"].value)


def _times(price: float | None, amount: float) -> float | None:
    return None if price is None else price * amount
