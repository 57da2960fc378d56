"""A price list to begin with: every row that a job needs, each to be filled in."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from pourwright.app.learnt.in_force import shop_materials
from pourwright.app.pricing.quotes import PRICES_FILE
from pourwright.app.which import as_loaded
from pourwright.foundation.errors import UserError
from pourwright.foundation.files import write_atomically
from pourwright.foundation.quantities import CURRENCIES
from pourwright.jobs import read_prices
from pourwright.jobs.job import Job

HEAD = """# What things cost. Take the # off a row once you know its price, with the day you paid or asked;
# until then its line has a gap. Every key: docs/cost.md.
format = 1
currency = "{currency}"
# date = "YYYY-MM-DD"  # of every price that has none of its own
"""
TAIL = """
# [[item]]  # feet, screws, a label; for each piece
# name = "felt feet"
# count = 4
# price = "0.00 {currency}/piece"

# [[freight]]  # a row for each weight
# up_to = "{weight}"
# price = "0.00 {currency}"

# [scrap]
# rate = "10 %"  # castings that give no good piece

# [overhead]  # rent, insurance, heating
# month = "0 {currency}"
# hours = 100  # worked in a month

# [tax]
# kind = "VAT"  # or "sales tax"
# rate = "0 %"

# [sell]
# margin = "30 %"  # of the price that is left after all cost
"""
PLAIN = (
    ("bottle", "piece", "an empty bottle, where you crush your own"),
    ("master", "piece", "what the master cost, for one mold"),
    ("release", "piece", "for one casting"),
    ("consumables", "piece", "gloves, cups, brushes; for one casting"),
    ("packing", "piece", "box and padding, for one piece"),
    ("energy", "kWh", ""),
    ("hour", "h", "what an hour of yours is worth"),
)


def new_prices(path: Path | Job, currency: str) -> Path:
    """Write a price list beside a job, every price of it still to be filled in.

    Parameters
    ----------
    path : Path or Job
        Job file, or the job as it was read.
    currency : str
        ISO 4217 code.

    Returns
    -------
    Path
        The list.

    Raises
    ------
    UserError
        For a currency that nobody knows, and where there is a list already.
    """
    if currency not in CURRENCIES:
        known = ", ".join(sorted(CURRENCIES))
        raise UserError(f"no currency {currency!r} is known", where="--new-list", allowed=known)
    job = as_loaded(path)
    file = job.path.parent / PRICES_FILE
    if file.exists():
        raise UserError("there is a price list already", where=str(file), todo="edit it, or move it away")
    text = price_list_text(job, currency)
    read_prices(text, file)
    write_atomically(file, text.encode())
    return file


def price_list_text(job: Job, currency: str) -> str:
    """The rows that a job needs, as comments."""
    rows = "".join(_row(of, named, unit, currency, why) for of, named, unit, why in _rows(job))
    return (
        HEAD.format(currency=currency)
        + rows
        + TAIL.format(currency=currency, weight="40 lb" if job.units == "us" else "20 kg")
    )


def _row(of: str, named: str, unit: str, currency: str, why: str) -> str:
    words = f"  # {why}" if why else ""
    priced = f'# price = "0.00 {currency}/{unit}"\n# date = "YYYY-MM-DD"\n'
    return f'\n# [[price]]{words}\n# of = "{of}"\n{named}{priced}'


def _rows(job: Job) -> Iterator[tuple[str, str, str, str]]:
    minerals = shop_materials(job).mineral
    variants, mass = job.variants(), "lb" if job.units == "us" else "kg"
    for id_ in dict.fromkeys(one.casting.material for one in variants):
        if id_ in minerals:
            yield "mineral", f'# id = "{id_}"\n', mass, "of the dry powder"
        else:
            yield "resin", f'# id = "{id_}"\n', mass, "of the mix; or by the litre or gallon"
    for grade in dict.fromkeys(band.grade for one in variants for band in one.band if band.grade):
        yield "glass", f'# grade = "{grade}"\n', mass, "crushed and graded, where you buy it"
    for name in dict.fromkeys(insert.name for one in variants for insert in one.insert):
        yield "insert", f'# id = "{name}"\n', "piece", "set into each casting"
    if any(one.hollow for one in variants):
        yield "core", "", "piece", "of one casting; of one mold where it comes out again"
    for id_ in dict.fromkeys(one.mold.rubber for one in variants):
        yield "rubber", f'# id = "{id_}"\n', mass, "of the mix"
    for id_ in dict.fromkeys(one.mold.board for one in variants):
        yield "board", f'# id = "{id_}"\n', "piece", "a sheet; or by the m2"
    yield from ((of, "", unit, why) for of, unit, why in PLAIN)
