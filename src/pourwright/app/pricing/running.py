"""How many are made of a mold, and how many fail: from the price list, the book, or common practice."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from pourwright.app.learnt.used import used_by
from pourwright.app.learnt.words import counted
from pourwright.app.pricing.look import CostLook
from pourwright.app.pricing.quotes import exact
from pourwright.costing.defaults import COSTING
from pourwright.costing.lines import Run
from pourwright.foundation.notation import format_share


@dataclass(frozen=True)
class Running:
    """The run of a job, and where its numbers are from.

    Parameters
    ----------
    run : Run
        For the sum.
    life : Decimal
        Castings that a mold gives.
    molds : int or None
        For the pieces wanted; None where nobody said how many.
    life_from, scrap_from : str
        In words.
    """

    run: Run
    life: Decimal
    molds: int | None
    life_from: str
    scrap_from: str


def running(look: CostLook) -> Running:
    """Say how many castings share a mold."""
    listed = look.quotes.listed
    scrap, scrap_from = scrap_of(look)
    life, life_from = _life(look)
    starts = _starts(look, scrap)
    molds = None if starts is None else _up(starts / life)
    return Running(
        run=Run(
            casts=life if starts is None or molds is None else starts / molds,
            scrap=scrap,
            found_finished=listed.scrap.found == "finished",
            learning=exact(listed.run.learning),
            pieces=listed.run.pieces or _up(life * (1 - scrap)),
            begins=listed.run.begins,
        ),
        life=life,
        molds=molds,
        life_from=life_from,
        scrap_from=scrap_from,
    )


def _starts(look: CostLook, scrap: Decimal) -> Decimal | None:
    """Castings that are begun in all, on average, where somebody said how many pieces are wanted."""
    pieces, casts = look.quotes.listed.run.pieces, look.job.mold.casts
    if pieces is not None:
        return pieces / (1 - scrap)
    return None if casts is None else Decimal(casts)


def _up(number: Decimal) -> int:
    return int(number.to_integral_value("ROUND_CEILING"))


def _life(look: CostLook) -> tuple[Decimal, str]:
    own = look.quotes.listed.mold.casts
    if own is not None:
        return Decimal(own), look.written(("mold", "casts"), "", own, "").path
    at, way = look.planned.way
    band = f"{way.casts_low:.0f} to {way.casts_high:.0f}"
    return exact(round(way.casts)), f"mold.json ways.ways[{at}].casts, {band}, from memory"


def scrap_of(look: CostLook) -> tuple[Decimal, str]:
    """Share of the castings that give no good piece, and where it is from."""
    own = look.quotes.listed.scrap.rate
    if own is not None:
        return exact(own), look.written(("scrap", "rate"), "", own, "").path
    for one in used_by(look.job):
        if one.quantity == "scrap_rate" and not one.kept_family:
            return exact(round(one.value, 4)), f"the shop's book, {counted(one)}"
    usual = COSTING["scrap"]
    return exact(
        usual.value
    ), f"common practice, {format_share(usual.low or 0)} to {format_share(usual.high or 1)}, no source"
