"""From the text of a price list to checked prices."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from pourwright.foundation.quantities import Quantity
from pourwright.jobs.errors import Finding
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.prices import PriceList
from pourwright.jobs.texts import read_written
from pourwright.jobs.toml_checked import checked_model, one_currency, parsed_toml

_DATED = ("price", "item", "freight", "tool")


def load_prices(path: Path | str) -> PriceList:
    """Read and check a price list.

    Parameters
    ----------
    path : Path or str
        The file.

    Returns
    -------
    PriceList
        With the lines of its keys.

    Raises
    ------
    JobError
        With file and line of everything that is wrong.
    """
    file = Path(path)
    text, digest = read_written(
        file, "price list", missing="mend its name", instead="give the prices.toml, saved as UTF-8 text"
    )
    prices = read_prices(text, file)
    prices._digest = digest  # noqa: SLF001 - prices are finished here and nowhere else
    return prices


def read_prices(text: str, file: Path | str = "prices.toml") -> PriceList:
    """Check the text of a price list.

    Parameters
    ----------
    text : str
        TOML.
    file : Path or str
        What messages call it.

    Returns
    -------
    PriceList
        With the lines of its keys.

    Raises
    ------
    JobError
        With file and line of everything that is wrong.
    """
    file = Path(file)
    raw, lines = parsed_toml(text, file)
    prices = checked_model(raw, lines, file, PriceList, _further)
    prices._path, prices._lines = file, lines  # noqa: SLF001 - as above
    return prices


def _further(prices: PriceList) -> Iterator[tuple[KeyPath, Finding]]:
    yield from one_currency(prices.currency, ((path, price) for path, price, _ in prices.moneys()))
    yield from _undated(prices)
    yield from _tools(prices)
    yield from _amounts(prices)


def _undated(prices: PriceList) -> Iterator[tuple[KeyPath, Finding]]:
    if prices.date is not None:
        return
    for name in _DATED:
        for at, row in enumerate(getattr(prices, name)):
            if row.date is None:
                todo = "write when it was paid or offered, here or once at the top of the file"
                yield (name, at), ("a price without a date", 'date = "2026-11-02"', todo)


def _tools(prices: PriceList) -> Iterator[tuple[KeyPath, Finding]]:
    """A tool's price is spread over the hours it works."""
    if prices.tool and (prices.overhead is None or prices.overhead.hours is None):
        todo = "write the hours worked in a month"
        yield ("tool", 0), ("a tool without the hours it serves", "hours under [overhead]", todo)


def _amounts(prices: PriceList) -> Iterator[tuple[KeyPath, Finding]]:
    """Weights, times and grits above nothing."""
    written: list[tuple[KeyPath, Quantity | None]] = [
        (("packing_mass",), prices.packing_mass),
        (("old_after",), prices.old_after),
        (("energy", "casting"), prices.energy.casting),
        *((("freight", at, "up_to"), row.up_to) for at, row in enumerate(prices.freight)),
    ]
    for path, amount in written:
        if amount is not None and amount.si <= 0:
            yield path, (f"{amount.text!r} is too little", "above 0", "mend the value, or leave the line out")
    for at, grit in enumerate(prices.finish.grits or ()):
        if grit < 1:
            yield ("finish", "grits", at), (f"{grit} is no grit", "1 or more", "mend the list")
