"""The shopping list, with prices where the job gives them."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from pourwright.app.defaults import DEFAULTS
from pourwright.app.learnt.in_force import learnt_value
from pourwright.app.setup import Setup
from pourwright.foundation.notation import format_length, format_share
from pourwright.foundation.quantities import Dimension, Quantity
from pourwright.jobs import plan

TEN = 10
"""Pieces of a run, for a figure that is easily turned into another."""


def shopping(setup: Setup, pours: list[plan.Pour]) -> list[plan.Need]:
    """List what to have before the first pour.

    Parameters
    ----------
    setup : Setup
        Mold and fill.
    pours : list of plan.Pour
        With their batches.

    Returns
    -------
    list of plan.Need
        Masses in kg, boards in m2; a price only where the job gives one.
    """
    run = _for_a_run(setup)
    return [
        *_rubber(setup),
        *(_noted(need, run) for need in _resin(setup, pours)),
        *(_noted(need, run) for need in _glass(setup)),
        *_boards(setup),
        *_block_board(setup),
    ]


def _for_a_run(setup: Setup) -> str:
    """What more a run takes, because some pieces fail; nothing where the shop has not counted its own."""
    rate = learnt_value(setup.job, "scrap_rate", "pieces")
    if rate is None:
        return ""
    more = f"{TEN / (1.0 - rate):.1f}"
    return f"{format_share(rate)} of your pieces fail: for {TEN} good ones have enough for {more}"


def _noted(need: plan.Need, words: str) -> plan.Need:
    return need.model_copy(update={"note": "; ".join(filter(None, (need.note, words)))})


def _price(setup: Setup, name: str, mass: float, density: float) -> float | None:
    """Money for a mass [kg], from a price per kg or per volume."""
    prices = setup.job.prices
    price: Quantity | None = None if prices is None else getattr(prices, name)
    if price is None:
        return None
    amount = mass / density if price.dimension is Dimension.MONEY_PER_VOLUME else mass
    return round(price.si * amount, 2)


def _two_parts(
    setup: Setup, name: str, title: str, parts: tuple[float, float], density: float
) -> list[plan.Need]:
    whole = sum(parts)
    cost = _price(setup, name, whole, density)
    return [
        plan.Need(
            item=f"{title}, part {letter}",
            quantity=mass,
            unit="kg",
            price=None if cost is None else round(cost * mass / whole, 2),
        )
        for letter, mass in zip("AB", parts, strict=True)
    ]


def _rubber(setup: Setup) -> list[plan.Need]:
    mix, record = setup.mold.rubber, setup.mold.choices.rubber
    return _two_parts(setup, "rubber", record.name, (mix.part_a, mix.part_b), record.density.value)


def _resin(setup: Setup, pours: list[plan.Pour]) -> list[plan.Need]:
    parts = (sum(pour.part_a_kg for pour in pours), sum(pour.part_b_kg for pour in pours))
    return _two_parts(setup, "resin", setup.resin.name, parts, setup.resin.density.value)


def _glass(setup: Setup) -> list[plan.Need]:
    density = setup.fill.choices.glass.density.value
    bottles = dict(setup.fill.bottles_by_colour)
    return [
        plan.Need(
            item=f"crushed glass, {lot.colour}, {lot.grade}",
            quantity=lot.mass,
            unit="kg",
            price=_price(setup, "glass", lot.mass, density),
            note=f"{bottles[lot.colour]} bottles" if lot.colour in bottles else "bought graded",
        )
        for lot in setup.fill.glass
    ]


def _block_board(setup: Setup) -> Iterator[plan.Need]:
    """Board for space blocks: whole layers of the thinnest stock."""
    mold = setup.mold
    if not mold.blocks:
        return
    choices, waste = mold.choices, DEFAULTS["sheet_waste"].value
    thick = min(choices.block_stock)
    yield plan.Need(
        item=f"{choices.block_board.name} for {len(mold.blocks)} space blocks",
        quantity=ceil(mold.pour.wood / thick * (1 + waste) * 100) / 100,
        unit="m2",
        price=None,
        note=f"{format_length(thick, setup.system)} thick, glued up; offcuts do",
    )


def _boards(setup: Setup) -> list[plan.Need]:
    panels = setup.mold.panels
    waste = DEFAULTS["sheet_waste"].value
    area = sum(panel.count * panel.length * panel.width for panel in panels) * (1 + waste)
    prices = setup.job.prices
    sheet = None if prices is None or prices.board is None else prices.board.si
    return [
        plan.Need(
            item=f"{setup.mold.choices.board.name} for the box",
            quantity=ceil(area * 100) / 100,
            unit="m2",
            price=sheet,
            note=f"panels and {format_share(waste)} for saw cuts"
            + ("" if sheet is None else "; price of one sheet"),
        )
    ]
