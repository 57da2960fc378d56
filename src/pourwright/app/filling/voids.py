"""How much room the grains of a job leave, as part of the fill's document."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from pourwright.app.filling.band_words import about, coarse_mass
from pourwright.app.filling.look import FillLook
from pourwright.app.setup import Setup
from pourwright.fill import BandChoice, FillBand, FillChoices, FillResult, design_fill, sifts_through
from pourwright.fill.best_blend import best_blend
from pourwright.fill.defaults import DEFAULTS
from pourwright.fill.sifting import sifted_void_fraction
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import format_money, format_share
from pourwright.foundation.progress import Progress
from pourwright.jobs.fill_voids import BandVoids, Closer, GlassVoids
from pourwright.materials.blends import Blend, blend_name, with_blends
from pourwright.physics.sphere_packing import RANDOM

WORTH = 0.02
"""Share of the resin that a change must save to be told."""
MORE_GLASS = 1.2
"""A closer bed takes more glass than the one that is planned, by so much at most."""
MEASURED = "measured here"
BUCKET = (
    "The void fraction decides how much resin is bought: fill a dry bucket level with the glass, weigh it, "
    "and write bucket_test = { mass = ..., volume = ... }; or fill it up with water and write water = ..."
)
WALLS = "Grains lie looser along walls: in a narrow mold more resin goes in than a bucket says."


def voids_look(look: FillLook, progress: Progress) -> GlassVoids | None:
    """Tell the voids of every glass band, and what would close them.

    Parameters
    ----------
    look : FillLook
        The fill.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    GlassVoids or None
        None where there is no glass for resin to fill.
    """
    del progress
    setup = look.setup
    if setup is None or not setup.fill.glass:
        return None
    glassy = [band for band in setup.fill.bands if not band.neat]
    prices = look.job.prices
    untested = [band.name for band in glassy if MEASURED not in band.void_source]
    return GlassVoids(
        bands=[_band(setup, band) for band in glassy],
        voids=_overall(setup.fill),
        closer=list(_closer(look, setup)),
        currency=None if prices is None else prices.currency,
        words=[WALLS, *([BUCKET] if untested else [])],
        warnings=list(_too_close(glassy)),
    )


def _band(setup: Setup, band: FillBand) -> BandVoids:
    glass = setup.fill.choices.glass
    grade = glass.grade(str(band.grade))
    bands = setup.fill.bands
    above = next((each for each in bands if not each.neat and each.lower >= band.upper - 1e-9), None)
    finer = None if above is None else glass.grade(str(above.grade))
    sifts = None
    if finer is not None and sifts_through(finer.sieve_from.value, grade.sieve_to.value):
        sifts = sifted_void_fraction(grade, finer)
    return BandVoids(
        band=band.name,
        grade=grade.id,
        sieve_from_m=grade.sieve_from.value,
        sieve_to_m=grade.sieve_to.value,
        bucket=band.void_in_bucket,
        mold=band.void_fraction,
        mold_low=band.void_low,
        mold_high=band.void_high,
        source=band.void_source,
        tapped="tapped" in band.void_source,
        measured=MEASURED in band.void_source,
        sifts_low=None if sifts is None else sifts.low,
        sifts_high=None if sifts is None else sifts.high,
    )


def _overall(fill: FillResult) -> float:
    """Room for resin in all glass bands together [-]."""
    glassy = [band for band in fill.bands if not band.neat]
    volume = sum(band.volume for band in glassy)
    return sum(band.volume * band.void_fraction for band in glassy) / volume


def _closer(look: FillLook, setup: Setup) -> Iterator[Closer]:
    choices = setup.fill.choices
    tapped = replace(choices, bands=tuple(_tapped(band) for band in choices.bands))
    if tapped.bands != choices.bands:
        yield from _saving(
            look, setup, tapped, "tapped down while the glass goes in", "fines sift down with it"
        )
    blend = _blend(setup)
    if len(blend) > 1:
        mixed = replace(
            choices,
            glass=with_blends(choices.glass, [blend]),
            bands=tuple(_mixed(band, blend) for band in choices.bands),
        )
        told = f"{blend_name(blend)}, mixed before it goes in"
        yield from _saving(look, setup, mixed, told, "it looks finer, and must not be shaken apart")


def _tapped(band: BandChoice) -> BandChoice:
    known = band.bucket_test is not None or band.void_fraction is not None
    return band if band.grade is None or known else replace(band, tapped=True)


def _mixed(band: BandChoice, blend: Blend) -> BandChoice:
    if band.grade is None:
        return band
    return replace(band, grade=blend_name(blend), blend=blend, bucket_test=None, void_fraction=None)


def _blend(setup: Setup) -> Blend:
    """The closest mixture of what lies ready, else of the record's grades."""
    choices, wanted = setup.fill.choices, setup.fill.glass_mass
    ready: dict[str, float] = {}
    for stock in choices.stock:
        ready[stock.grade] = ready.get(stock.grade, 0.0) + stock.mass
    plain = [grade.id for grade in choices.glass.grades if "+" not in grade.id]
    most = {name: mass / (wanted * MORE_GLASS) for name, mass in ready.items()} or None
    try:
        return best_blend(choices.glass, list(ready) or plain, most)
    except UserError:
        return ()


def _saving(look: FillLook, setup: Setup, choices: FillChoices, what: str, mind: str) -> Iterator[Closer]:
    mesh = setup.piece.mesh if setup.hollow is None else setup.hollow.body.room
    try:
        other = design_fill(mesh, setup.fill.levels, choices)
    except UserError:
        return  # a cover that no longer fits, for one: not worth telling
    saved = setup.fill.resin_mixed - other.resin_mixed
    if saved < WORTH * setup.fill.resin_mixed:
        return
    more = other.glass_mass - setup.fill.glass_mass
    room, now = format_share(_overall(other)), format_share(_overall(setup.fill))
    told = ", ".join(
        (
            f"{what}: {room} instead of {now} for resin",
            f"{about(coarse_mass(saved, look.system))} of it less",
            f"{about(coarse_mass(abs(more), look.system))} of glass {'more' if more >= 0 else 'less'}",
        )
    )
    money = _money(look, saved, more)
    worth = (
        ""
        if money is None
        else f", {about(format_money(round(money), str(look.job.prices and look.job.prices.currency)))} less"
    )
    yield Closer(
        what=what,
        resin_saved_kg=saved,
        glass_more_kg=more,
        money=money,
        voids=_overall(other),
        words=f"{told[0].upper()}{told[1:]}{worth}; {mind}.",
    )


def _money(look: FillLook, resin: float, glass: float) -> float | None:
    prices = look.job.prices
    if prices is None or prices.resin is None or prices.glass is None:
        return None
    return resin * prices.resin.si - glass * prices.glass.si


def _too_close(glassy: Sequence[FillBand]) -> Iterator[str]:
    least = 1.0 - RANDOM["shaken"].value
    for band in glassy:
        if MEASURED in band.void_source and not band.blend and band.void_in_bucket < least:
            yield (
                f"{band.name}: the bucket test leaves {format_share(band.void_in_bucket)}, less than equal "
                f"balls that are shaken down for long ({format_share(least)}): are fines in the grade, or "
                "was the bucket's volume measured short?"
            )
    tapped = DEFAULTS["tapped"].value
    for band in glassy:
        if "tapped" in band.void_source and abs(band.void_in_bucket - tapped) < 1e-9:
            yield f"{band.name} is reckoned tapped: tap every layer, or it takes more resin than is mixed."
