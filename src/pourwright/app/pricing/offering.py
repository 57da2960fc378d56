"""What an offer says of a piece: its size, what it is made of, its price, what to mind."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from decimal import Decimal

from pourwright.app.booking.caring import Care, care_of, care_of_mineral
from pourwright.app.pricing.look import CostLook
from pourwright.app.pricing.planned import Planned
from pourwright.app.pricing.standing import Stance, stands_words
from pourwright.app.shaping.piece import PieceRead
from pourwright.app.shelf.pictures import drawn_piece
from pourwright.foundation.notation import UnitSystem, format_amount, format_share
from pourwright.jobs.cost_sheet import CostSheet
from pourwright.jobs.job import Job
from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.shop_file import load_shop
from pourwright.sheets.costs.offer import Offer
from pourwright.sheets.wording import Wording

SHOP_FILE, ABOVE = "shop.toml", 4
PICTURE = 300.0
SLIGHT = 1e-6
FINISHES = {
    "raw": "as it comes from the mold",
    "satin": "satin, sanded fine, rubbed and oiled or waxed",
    "polished": "polished",
}


def offer_of(look: CostLook, sheet: CostSheet, piece: PieceRead, stance: Stance | None) -> Offer:
    """Fill an offer.

    Parameters
    ----------
    look : CostLook
        Plan and prices.
    sheet : CostSheet
        The cost.
    piece : PieceRead
        Its body.
    stance : Stance or None
        How it stands, where that is known.

    Returns
    -------
    Offer
        With nothing of what it costs the shop.
    """
    told, words = look.planned.piece, Wording(sheet.job)
    return Offer(
        paper=sheet.job.paper,
        title=sheet.job.title,
        variant=sheet.job.variant,
        invented=sheet.job.invented or sheet.prices.invented,
        seller=seller_lines(look.job),
        size=words.size(told.finished_size_m or told.size_m),
        mass=words.load(told.mass_kg),
        picture=drawn_piece(look.job, piece, PICTURE),
        materials=list(_materials(look)),
        prices=list(_prices(sheet)),
        terms=list(_terms(sheet)),
        care=[(one.word, one.text) for one in _care(look, stance)],
        made=datetime.fromisoformat(sheet.computed_for),
    )


def seller_lines(job: Job) -> list[str]:
    """Who sells, from the shop's file beside the job or in a folder above it.

    Parameters
    ----------
    job : Job
        Its folder is looked into first.

    Returns
    -------
    list of str
        Name, address, contact; empty where nobody is named.

    Raises
    ------
    UserError
        For a shop file with errors, with its line.
    """
    here = job.path.resolve().parent
    places = (folder / SHOP_FILE for folder in (here, *here.parents[:ABOVE]))
    found = next((place for place in places if place.is_file()), None)
    seller = None if found is None else load_shop(found).seller
    return [] if seller is None else [seller.name, *seller.address, *seller.contact]


def _care(look: CostLook, stance: Stance | None) -> Iterator[Care]:
    """As its card has it, and how it stands after what it bears."""
    for one in _on_card(look.planned, look.system):
        yield one
        if one.word == "Load" and stance is not None:
            yield Care("Standing", stands_words(stance, look.system))


def _on_card(planned: Planned, units: UnitSystem) -> tuple[Care, ...]:
    if planned.plan is not None:
        return care_of(planned.plan, None)
    assert planned.mineral is not None
    return care_of_mineral(planned.mineral.binder, planned.piece.mass_kg, units)


def _materials(look: CostLook) -> Iterator[tuple[str, str]]:
    planned = look.planned
    if planned.plan is not None:
        yield from _of_resin(planned.plan)
    elif planned.mineral is not None:
        yield "Cast from", planned.mineral.name
        if planned.mineral.aggregate_kg:
            yield "Glass", f"crushed glass, {planned.mineral.aggregate_grade}, stirred in"
    yield "Surface", FINISHES[look.quotes.listed.finish.surface_of(look.job.variant_name)]
    items = [item for item in look.quotes.listed.item if item.each == "piece"]
    if items:
        told = (f"{item.count} {item.name}" if item.count > 1 else item.name for item in items)
        yield "With it", ", ".join(told)


def _of_resin(plan: PlanDocument) -> Iterator[tuple[str, str]]:
    bands = plan.fill.bands
    glass, resin = (sum(getattr(band, f"{name}_kg") for band in bands) for name in ("glass", "resin"))
    name = plan.piece.casting_material_name or plan.piece.casting_material
    yield "Cast from", f"{name}, set hard" + ("" if glass else ", without glass")
    if not glass:
        return
    lots = dict.fromkeys(f"{band.colour}, {band.grade}" for band in bands if band.kind == "glass")
    yield "Glass", f"crushed glass, {format_share(glass / (glass + resin))} of its weight: {'; '.join(lots)}"
    thick = plan.fill.neat_cover_m + SLIGHT
    if any(band.kind == "neat" and band.to_m - band.from_m > thick for band in bands):
        yield "Clear", "bands of resin without glass"


def _prices(sheet: CostSheet) -> Iterator[tuple[str, str]]:
    price = sheet.price
    offered = None if price is None else price.offered
    if price is None or offered is None:
        yield from (("Price of one, without tax", ""), ("Tax", ""), ("Price of one", ""))
        return

    def money(amount: Decimal) -> str:
        return format_amount(amount, sheet.currency, sheet.job.units)

    terms = price.terms
    if not terms.tax_kind:
        yield "Price of one", money(offered.shown)
        return
    kind = terms.tax_kind[0].upper() + terms.tax_kind[1:]
    yield "Price of one, without tax", money(offered.net)
    yield f"{kind}, {100 * terms.tax:.6g} %", money(offered.tax)
    yield "Price of one, with tax", money(offered.net + offered.tax)


def _terms(sheet: CostSheet) -> Iterator[str]:
    sent = any(line.key == "freight" and line.money is not None for line in sheet.lines)
    yield "Packing and sending are in the price." if sent else "Sending is not in the price."
    if sheet.price is not None and sheet.price.offered is not None and not sheet.price.terms.tax_kind:
        yield "No tax is told apart in it."
    yield (
        "Each is cast by hand: glass lies otherwise in each, and the colour may differ a little. "
        "Size and weight are as planned."
    )
