"""What it costs to buy, as far as the job gives prices."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from pourwright.app.answering.document import Number, Section, Table
from pourwright.app.answering.looked import CheapLook
from pourwright.app.answering.mold_section import skin_thickness
from pourwright.app.answering.numbers import cell, table
from pourwright.app.box_sheets import sheet_of
from pourwright.app.defaults import DEFAULTS
from pourwright.foundation.notation import format_mass, format_money
from pourwright.foundation.quantities import Dimension, Quantity

LATER = "Only what is bought: hours, the life of the mold and a price for the piece are not reckoned here."
NO_PRICES = "No prices in the job: write [prices] and this tells what is bought for it."


@dataclass(frozen=True)
class Bought:
    """One thing that is bought.

    Parameters
    ----------
    key, item : str
        Name, and what it is called.
    amount : str
        In words.
    money : float or None
        None where the job gives no price.
    each_piece : bool
        Whether every piece needs it again.
    """

    key: str
    item: str
    amount: str
    money: float | None
    each_piece: bool


def paper_section(look: CheapLook) -> Section:
    """Tell what is bought and what it costs.

    Parameters
    ----------
    look : CheapLook
        The job.

    Returns
    -------
    Section
    """
    prices = look.job.prices
    if prices is None:
        return Section(notes=[NO_PRICES])
    things = list(bought(look))
    missing = [thing.item for thing in things if thing.money is None]
    notes = [LATER, *([f"no price for {', '.join(missing)}"] if missing else [])]
    return Section(
        numbers=list(_sums(things, prices.currency)),
        tables=[_table(things, prices.currency)],
        notes=notes,
        old=_old(look),
    )


def _old(look: CheapLook) -> str:
    if look.skin_missing:
        return "the skin is not measured yet: its rubber is priced as for a block"
    return "the rubber is told without its space blocks: the money for it too" if look.blocks_missing else ""


def _rubber_of(look: CheapLook) -> float:
    """What is mixed for a block or a skin, spare in it [kg]."""
    choices, mix = look.mold.choices, look.mold.rubber
    if look.skin is None:
        return mix.part_a + mix.part_b
    skin = look.skin.volume(skin_thickness(look)) * choices.rubber.density.value
    return skin * (1.0 + choices.rubber_pour_allowance)


def bought(look: CheapLook) -> Iterator[Bought]:
    """List what is bought for the mold and the first piece.

    Parameters
    ----------
    look : CheapLook
        The job, with prices.

    Yields
    ------
    Bought
    """
    mold, system = look.mold, look.system
    rubber = _rubber_of(look)
    price = _priced(look, "rubber", rubber, mold.choices.rubber.density.value)
    yield Bought("rubber", mold.choices.rubber.name, format_mass(rubber, system), price, each_piece=False)
    yield _boards(look)
    if look.setup is None:
        yield from _powder(look)
        return
    fill, resin = look.setup.fill, look.setup.resin
    mixed = fill.resin_mixed
    price = _priced(look, "resin", mixed, resin.density.value)
    yield Bought("resin", resin.name, format_mass(mixed, system), price, each_piece=True)
    if fill.glass_mass:
        glass = fill.choices.glass
        price = _priced(look, "glass", fill.glass_mass, glass.density.value)
        yield Bought("glass", "crushed glass", format_mass(fill.glass_mass, system), price, each_piece=True)


def _powder(look: CheapLook) -> Iterator[Bought]:
    assert look.mix is not None  # a job without resin has it
    name = look.mold_look.casting.name
    price = _priced(look, "mineral", look.mix.powder, look.mold_look.casting.density.value)
    yield Bought("mineral", name, format_mass(look.mix.powder, look.system), price, each_piece=True)


def _boards(look: CheapLook) -> Bought:
    prices, mold = look.job.prices, look.mold
    long, wide = sheet_of(look.job, mold)
    area = sum(panel.count * panel.length * panel.width for panel in mold.panels)
    sheets = ceil(area * (1 + DEFAULTS["sheet_waste"].value) / (long * wide))
    each = None if prices is None or prices.board is None else prices.board.si
    words = "1 sheet" if sheets == 1 else f"{sheets} sheets"
    money = None if each is None else each * sheets
    return Bought("board", f"{mold.choices.board.name} for the box", words, money, each_piece=False)


def _priced(look: CheapLook, name: str, mass: float, density: float) -> float | None:
    price: Quantity | None = getattr(look.job.prices, name)
    if price is None:
        return None
    return price.si * (mass / density if price.dimension is Dimension.MONEY_PER_VOLUME else mass)


def _sums(things: list[Bought], currency: str) -> Iterator[Number]:
    known = [(thing.money, thing.each_piece) for thing in things if thing.money is not None]
    if not known:
        return
    first, further = sum(money for money, _ in known), sum(money for money, each in known if each)
    for key, label, money in (
        ("first_piece", "bought for the first piece, its mold with it", first),
        ("further_piece", "bought for each further piece", further),
    ):
        text = format_money(money, currency)
        yield Number(key=f"{key}_{currency}", label=label, value=round(money, 2), text=text)


def _table(things: list[Bought], currency: str) -> Table:
    heads = (("item", "to buy"), ("amount", "how much"), (f"money_{currency}", "costs"))
    rows = [
        [
            cell(thing.item),
            cell(thing.amount),
            cell(thing.money, "no price" if thing.money is None else format_money(thing.money, currency)),
        ]
        for thing in things
    ]
    return table("bought", "What is bought", heads, rows)
