"""A piece cast hollow, told from the mold of its job."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from pourwright.app.molding.look import MoldLook
from pourwright.foundation.notation import format_length, format_mass, format_temperature
from pourwright.foundation.progress import Progress
from pourwright.foundation.quantities import Dimension, Quantity
from pourwright.jobs.mold_hollow import HollowOffer, MoldHollow
from pourwright.materials import Mineral
from pourwright.mold.hollow.core import has_mouth, holes_closed, holes_through
from pourwright.mold.hollow.defaults import HOLLOW, WALLS
from pourwright.mold.hollow.offers import Layer, Offer, offer_of, thickest_wall, weight_on_core


def hollow_look(look: MoldLook, progress: Progress) -> MoldHollow:
    """Say what a hollow piece would save.

    Parameters
    ----------
    look : MoldLook
        The mold.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    MoldHollow
    """
    del progress
    mesh, mouth = look.piece.mesh, has_mouth(look.piece.mesh)
    layers = layers_of(look)
    offers = [offer_of(mesh, layers, HOLLOW[name].value) for name in WALLS] if mouth else []
    most = look.job.limits.weight
    wall = None if most is None or not mouth else _wall_for(look, layers, most.si)
    closed = holes_closed(mesh, look.mold.wall)
    prices = look.job.prices
    return MoldHollow(
        piece_kg=look.fill_mass,
        offers=[_offer(look, offer) for offer in offers],
        currency=None if prices is None else prices.currency,
        most_kg=None if most is None else most.si,
        wall_for_most_m=wall,
        holes=holes_through(mesh),
        holes_closed=closed,
        safety_factor=look.mold.choices.safety_factor,
        words=list(_words(look, offers, mouth=mouth)),
        warnings=[*_heavy(look, wall, mouth=mouth), *_closed(look, closed)],
    )


def layers_of(look: MoldLook) -> list[Layer]:
    """List what lies in each band of the piece; gypsum and concrete are one band.

    Parameters
    ----------
    look : MoldLook
        The mold.

    Returns
    -------
    list of Layer
        From the mold's floor up.
    """
    if look.fill is None:
        solid = look.piece.solid
        return [Layer(upper=look.piece.size[2], volume=solid.volume, resin=0.0, solids=look.fill_mass)]
    return [
        Layer(upper=band.upper, volume=band.volume, resin=band.resin_mass, solids=band.glass_mass)
        for band in look.fill.bands
    ]


def _offer(look: MoldLook, offer: Offer) -> HollowOffer:
    factor, board = look.mold.choices.safety_factor, look.mold.choices.board.density.value
    foam = HOLLOW["foam_density"].value
    return HollowOffer(
        wall_m=offer.wall, core_m3=offer.core, saved_kg=offer.saved, resin_saved_kg=offer.resin_saved,
        solids_saved_kg=offer.solids_saved, piece_kg=look.fill_mass - offer.saved,
        money_saved=_money(look, offer),
        foam_weight_kg=weight_on_core(offer.core, look.densest, foam, factor),
        wood_weight_kg=weight_on_core(offer.core, look.densest, board, factor),
    )  # fmt: skip


def _money(look: MoldLook, offer: Offer) -> float | None:
    """Resin and glass that are not bought, as far as the job prices both."""
    prices = look.job.prices
    if prices is None or isinstance(look.casting, Mineral) or prices.resin is None:
        return None
    if offer.solids_saved and (prices.glass is None or look.fill is None):
        return None
    money = offer.resin_saved * per_kilogram(prices.resin, look.casting.density.value)
    if offer.solids_saved and prices.glass is not None and look.fill is not None:
        money += offer.solids_saved * per_kilogram(prices.glass, look.fill.choices.glass.density.value)
    return money


def per_kilogram(price: Quantity, density: float) -> float:
    """Give a price by mass or by volume in money per kg."""
    return price.si / density if price.dimension == Dimension.MONEY_PER_VOLUME else price.si


def _wall_for(look: MoldLook, layers: list[Layer], most: float) -> float | None:
    if look.fill_mass <= most:
        return None

    @cache
    def mass(wall: float) -> float:
        return look.fill_mass - offer_of(look.piece.mesh, layers, wall).saved

    return thickest_wall(mass, most, min(look.piece.size) / 2)


def _words(look: MoldLook, offers: list[Offer], *, mouth: bool) -> Iterator[str]:
    if not mouth:
        yield "No flat open face at the top: a core has nothing to hang from, so it is cast solid."
        return
    for offer in offers:
        if not offer.core:
            wall = format_length(offer.wall, look.system)
            yield f"A wall of {wall} leaves no room worth a core."
    if not any(offer.core for offer in offers):
        return
    limit = format_temperature(HOLLOW["foam_limit"].value, look.system)
    yield "The core hangs from bars through the mouth; its top shows there unless it is covered later."
    yield (
        "Weights on the bars are for the full mold, where the lift is greatest; they stay until it gels. "
        "Screw the core to the bars, or it floats sideways."
    )
    yield (
        f"Foam (extruded polystyrene): wrap it in tape, resin may eat it; it stays in or is scraped out, and "
        f"softens above {limit}: the plan's peak must stay below. Wood: sealed and wrapped; straight sides "
        "do not come out again, so give it draft or leave it in."
    )
    yield (
        "A core that is wider below than the narrowest place over it goes in while the cut rubber is open, "
        "or in parts, and stays in."
    )
    yield "A thinner wall warms less while it cures. The plan and its heat still count the piece as solid."


def _heavy(look: MoldLook, wall: float | None, *, mouth: bool) -> Iterator[str]:
    most = look.job.limits.weight
    if most is None or look.fill_mass <= most.si:
        return
    told, limit = (format_mass(mass, look.system) for mass in (look.fill_mass, most.si))
    text = f"The piece weighs {told}, more than the {limit} of limits.weight"
    if wall is not None:
        yield f"{text}: cast hollow to {format_length(wall, look.system)} it meets it."
    elif mouth:
        yield f"{text}: no wall is thin enough to meet it; make it smaller or choose a lighter casting."
    else:
        yield f"{text}, and it has no open face for a core: make it smaller or choose a lighter casting."


def _closed(look: MoldLook, closed: int) -> Iterator[str]:
    if closed:
        wall = format_length(look.mold.wall, look.system)
        which = "A hole through the piece is" if closed == 1 else f"{closed} holes through the piece are"
        yield (
            f"{which} narrower than two walls of rubber ({wall} each): the rubber fills it from side to side "
            "as a pin, which may tear. It needs its own core: a rod or a plug that is set into the mold."
        )
