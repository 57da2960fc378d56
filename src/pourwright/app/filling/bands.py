"""Bands beside their weights: glass missing, what moves, soft borders, shells, where each is as it stands."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.document.section import piece_lines
from pourwright.app.filling.band_words import (
    missing_words,
    moves_words,
    notes,
    shell_words,
    soft_words,
    standing_words,
)
from pourwright.app.filling.look import FillLook
from pourwright.app.setup import Setup
from pourwright.fill.glass import NO_COLOUR, glass_lot
from pourwright.fill.parts import FillBand
from pourwright.fill.soft_borders import SoftZone
from pourwright.fill.stock import Missing, allotted
from pourwright.fill.tapping import Tapping, tapping_of
from pourwright.foundation.progress import Progress
from pourwright.jobs.fill_bands import BandMoves, BandsTold, LeftOver, MissingGlass, ShellPart, SoftBorder
from pourwright.jobs.fill_sheet import FillSheet
from pourwright.sheets.fill_bands_drawing import draw_bands
from pourwright.sheets.wording import Wording


def bands_look(look: FillLook, progress: Progress) -> BandsTold | None:
    """Tell what is missing for the bands and what moves in them.

    Parameters
    ----------
    look : FillLook
        The fill.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    BandsTold or None
        None for a casting material mixed with water.
    """
    del progress
    setup = look.setup
    if setup is None:
        return None
    fill = setup.fill
    used = allotted(fill.bands, fill.levels, fill.choices) if fill.choices.stock else None
    missing = [] if used is None else [_missing(setup, one) for one in used.missing]
    told = BandsTold(
        standing=list(standing_words(setup)),
        stock=used is not None,
        missing=missing,
        left=[] if used is None else [_left(*lot) for lot in used.left],
        moves=[_moves(setup, one) for one in tapping_of(fill.bands, fill.levels, fill.choices)],
        soft=[_soft(setup, zone) for zone in fill.soft],
        shells=list(_shells(setup)),
        section=piece_lines(setup),
        notes=[],
        warnings=[one.text for one in missing],
    )
    return told.model_copy(update={"notes": list(notes(told))})


def bands_files(look: FillLook, sheet: FillSheet) -> Iterator[tuple[str, bytes]]:
    """Draw the bands with a tape beside them.

    Parameters
    ----------
    look : FillLook
        The fill.
    sheet : FillSheet
        All that was told.

    Yields
    ------
    str
        Path.
    bytes
        Content.
    """
    if sheet.bands is not None and sheet.laid is not None:
        drawing = draw_bands(look.job.title or "", sheet.laid, sheet.bands, sheet.piece, Wording(sheet.job))
        yield "drawings/bands.svg", drawing.encode()


def _missing(setup: Setup, one: Missing) -> MissingGlass:
    standing, colour = setup.piece.frame.as_standing, one.colour or NO_COLOUR
    lot = glass_lot(one.grade, colour, one.missing, setup.fill.choices)
    return MissingGlass(
        band=one.band.name,
        grade=one.grade,
        colour=colour,
        wanted_kg=one.wanted,
        there_kg=one.there,
        missing_kg=one.missing,
        ends_at_m=one.ends_at,
        ends_at_standing_m=None if one.ends_at is None else standing(one.ends_at),
        mix_in=one.mix_in,
        mix_in_share=one.share if one.mix_in else 0.0,
        bottles=lot.bottles,
        text=missing_words(setup, one, lot.bottles),
    )


def _left(grade: str, colour: str | None, mass: float) -> LeftOver:
    return LeftOver(grade=grade, colour=colour or NO_COLOUR, mass_kg=mass)


def _moves(setup: Setup, one: Tapping) -> BandMoves:
    return BandMoves(
        band=one.band.name,
        weighed_as_tapped=one.already,
        void_fraction=one.band.void_fraction,
        void_fraction_tapped=one.void_fraction,
        settles_m=one.settles,
        sinks_m=one.sinks,
        sinks_least_m=one.sinks_least,
        sinks_most_m=one.sinks_most,
        more_glass_kg=one.more_glass,
        border_m=one.border,
        border_standing_m=setup.piece.frame.as_standing(one.border),
        text=moves_words(one, setup.system),
    )


def _soft(setup: Setup, zone: SoftZone) -> SoftBorder:
    standing = setup.piece.frame.as_standing
    return SoftBorder(
        below=zone.below.name,
        above=zone.above.name,
        from_m=zone.lower,
        to_m=zone.upper,
        from_standing_m=standing(zone.lower),
        to_standing_m=standing(zone.upper),
        volume_m3=zone.volume,
        glass_below_kg=zone.glass_below,
        glass_above_kg=zone.glass_above,
        closes_m=zone.closes,
        text=soft_words(setup, zone),
    )


def _shells(setup: Setup) -> Iterator[ShellPart]:
    for band in setup.fill.bands:
        if band.shell is not None:
            yield _shell(setup, band)


def _shell(setup: Setup, band: FillBand) -> ShellPart:
    assert band.shell is not None  # the caller looks for shells
    return ShellPart(
        band=band.name,
        colour=band.shell.colour,
        core_colour=band.colour or NO_COLOUR,
        thickness_m=band.shell.thickness,
        volume_m3=band.shell.volume,
        glass_kg=band.shell_mass,
        core_kg=band.glass_mass - band.shell_mass,
        share=band.shell.volume / band.volume,
        text=shell_words(setup, band),
    )
