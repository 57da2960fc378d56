"""A piece cast hollow, told from the mold of its job."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.hollow_limit import limit_words, wall_within
from pourwright.app.hollow_part import Poured, hollow_part
from pourwright.app.hollowing import Hollowed
from pourwright.app.molding.look import MoldLook
from pourwright.foundation.notation import format_length, format_mass, format_temperature
from pourwright.foundation.progress import Progress
from pourwright.jobs.mold_hollow import HollowOffer, MoldHollow
from pourwright.materials import Mineral
from pourwright.mold.hollow.core import has_mouth, holes_closed, holes_through
from pourwright.mold.hollow.defaults import HOLLOW, walls_for
from pourwright.mold.hollow.offers import Offer, offer_of
from pourwright.physics.constants import STANDARD_GRAVITY
from pourwright.physics.hydrostatics import hold_down_force

FOAM = "xps-foam"


def hollow_look(look: MoldLook, progress: Progress) -> MoldHollow:
    """Say what a hollow piece saves, or would save.

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
    mesh, mouth, poured = look.piece.mesh, has_mouth(look.piece.mesh), poured_in(look)
    offers = [offer_of(mesh, poured.layers, wall) for wall in walls_for(poured.least_wall)] if mouth else []
    told = [_offer(look, poured, offer) for offer in offers]
    most, prices = look.job.limits.weight, look.job.prices
    within = wall_within(mesh, poured, look.fill_mass)
    closed = holes_closed(mesh, look.mold.wall)
    heavy = limit_words(mesh, poured, look.fill_mass)
    return MoldHollow(
        piece_kg=poured.solid_mass,
        chosen=None if look.hollow is None else hollow_part(look.hollow, poured, look.fill_mass),
        offers=told,
        lines=[_line(look, poured, offer) for offer in told if offer.core_m3],
        currency=None if prices is None else prices.currency,
        most_kg=None if most is None else most.si,
        wall_for_most_m=None if within is None else within[0],
        holes=holes_through(mesh),
        holes_closed=closed,
        safety_factor=poured.factor,
        words=list(_words(look, poured, offers, mouth=mouth)),
        warnings=[*([heavy] if heavy else []), *_closed(look, closed)],
    )


def poured_in(look: MoldLook) -> Poured:
    """Say what goes into the piece of a mold.

    Parameters
    ----------
    look : MoldLook
        The mold.

    Returns
    -------
    Poured
    """
    dry = (look.fill_mass - look.core_kept) / look.room_solid.volume
    factor = look.mold.choices.safety_factor
    return Poured(look.job, look.piece.levels, look.fill, look.solid_fill, look.densest, dry, factor)


def _offer(look: MoldLook, poured: Poured, offer: Offer) -> HollowOffer:
    foam, board = look.materials.core[FOAM].density.value, look.mold.choices.board.density.value
    resin, solids = offer.resin_saved, offer.solids_saved
    return HollowOffer(
        wall_m=offer.wall,
        core_m3=offer.core,
        saved_kg=offer.saved,
        resin_saved_kg=resin,
        solids_saved_kg=solids,
        piece_kg=poured.solid_mass - offer.saved,
        money_saved=poured.money(resin, solids),
        foam_weight_kg=_weight_on(offer.core, look.densest, foam, poured.factor),
        wood_weight_kg=_weight_on(offer.core, look.densest, board, poured.factor),
    )


def _weight_on(core: float, liquid: float, material: float, factor: float) -> float:
    """Weight that keeps a drowned core down [kg]; 0 where it sinks."""
    return max(factor * float(hold_down_force(core, liquid, material)) / STANDARD_GRAVITY, 0.0)


def _line(look: MoldLook, poured: Poured, offer: HollowOffer) -> str:
    """The answer in one breath."""
    wall = format_length(offer.wall_m, look.system)
    masses = (offer.piece_kg, poured.solid_mass, offer.resin_saved_kg)
    hollow, solid, resin = (format_mass(mass, look.system) for mass in masses)
    parts = [f"hollow to {wall}: {hollow} instead of {solid}"]
    if offer.resin_saved_kg:
        parts.append(f"{resin} less resin")
    if offer.money_saved is not None and look.job.prices is not None:
        parts.append(f"{offer.money_saved:.0f} {look.job.prices.currency} less")
    return ", ".join(parts)


def _words(look: MoldLook, poured: Poured, offers: list[Offer], *, mouth: bool) -> Iterator[str]:
    if look.hollow is not None:
        yield from _chosen_words(look, look.hollow)
        return
    if not mouth:
        yield "No flat open face at the top: a core has nothing to hang from, so it is cast solid."
        return
    least = poured.least_wall
    if least > HOLLOW["thin_wall"].value:
        narrow, grain = (format_length(value, look.system) for value in (least, poured.grain))
        yield f"Walls under {narrow} are too narrow for grains of up to {grain}: they take finer glass."
    for offer in offers:
        if not offer.core:
            wall = format_length(offer.wall, look.system)
            yield f"A wall of {wall} leaves no room worth a core."
    if not any(offer.core for offer in offers):
        return
    limit = format_temperature(look.materials.core[FOAM].peak_limit.value, look.system)
    yield '[hollow] with wall = "20 mm" in the job file casts it so: plan, pours, heat and tickets follow.'
    yield "The core hangs from bars through the mouth; its top shows there unless it is covered later."
    yield (
        "Weights on the bars are for the full mold, where the lift is greatest; they stay until it gels. "
        "Screw the core to the bars, or it floats sideways."
    )
    yield (
        f"Foam (extruded polystyrene): wrap it in tape, resin may eat it; it stays in or is scraped out, and "
        f"softens above {limit}. Wood: sealed and wrapped; straight sides do not come out again, so give it "
        "draft or leave it in."
    )
    yield (
        "A core that is wider below than the narrowest place over it goes in while the cut rubber is open, "
        "or in parts, and stays in."
    )


def _chosen_words(look: MoldLook, hollow: Hollowed) -> Iterator[str]:
    weighs = format_mass(hollow.core_mass, look.system)
    stays = "stays in" if hollow.stays else "comes out"
    yield f"The core weighs {weighs} and {stays}; mass, fill and money of the plan are those around it."
    if isinstance(look.casting, Mineral):
        yield "Gypsum swells and concrete shrinks as it sets: wrap a stiff core in 2 mm of soft foam sheet."


def _closed(look: MoldLook, closed: int) -> Iterator[str]:
    if closed:
        wall = format_length(look.mold.wall, look.system)
        which = "A hole through the piece is" if closed == 1 else f"{closed} holes through the piece are"
        yield (
            f"{which} narrower than two walls of rubber ({wall} each): the rubber fills it from side to side "
            "as a pin, which may tear. It needs its own core: a rod or a plug that is set into the mold."
        )
