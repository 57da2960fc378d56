"""The fill of one piece, from its choices."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from pourwright.fill.bands import lay_bands
from pourwright.fill.choices import FillChoices
from pourwright.fill.glass import bottles_by_colour, glass_lots
from pourwright.fill.parts import FillBand
from pourwright.fill.resin import ledger_between
from pourwright.fill.result import FillResult
from pourwright.fill.shells import lay_shells
from pourwright.fill.sifting import sifted_void_fraction, sifts_through
from pourwright.fill.soft_borders import SoftZone, soft_zones
from pourwright.fill.stock import refuse_colours_not_in_stock
from pourwright.fill.wetted import wetted_area
from pourwright.foundation.notation import format_length, format_mass, format_openings, format_share
from pourwright.geometry.levels import LevelVolume
from pourwright.geometry.mesh import Mesh
from pourwright.materials.records import Grade


def design_fill(mesh: Mesh, levels: LevelVolume, choices: FillChoices) -> FillResult:
    """Lay the bands, weigh glass and resin, count bottles.

    Parameters
    ----------
    mesh : Mesh
        The piece as cast, z = 0 at the mold's floor.
    levels : LevelVolume
        V(z) of the same mesh.
    choices : FillChoices
        Materials, bands, cover, losses.

    Returns
    -------
    FillResult
        Glass and resin of the piece sum to its mass.

    Raises
    ------
    UserError
        For bands that cannot be laid, with the line they stand on.
    """
    _refuse_unknown_grades(choices)
    refuse_colours_not_in_stock(choices)
    wetted = wetted_area(mesh)
    bands = lay_shells(lay_bands(choices, levels, wetted), choices, mesh)
    lots = glass_lots(bands, choices)
    cover = bands[-1].upper - bands[-1].lower if bands[-1].neat else 0.0
    soft = soft_zones(bands, levels, choices)
    return FillResult(
        choices=choices,
        levels=levels,
        wetted=wetted,
        bands=bands,
        glass=lots,
        bottles_by_colour=tuple(bottles_by_colour(lots)),
        ledger=ledger_between(bands, levels, wetted, choices, levels.bottom, levels.top),
        neat_cover=cover,
        soft=soft,
        warnings=(*_warnings(bands, choices), *_borders(soft, choices)),
    )


def _refuse_unknown_grades(choices: FillChoices) -> None:
    for band in choices.bands:
        if band.grade is not None:
            choices.glass.grade(band.grade, band.grade_where or band.where)


def _warnings(bands: tuple[FillBand, ...], choices: FillChoices) -> Iterator[str]:
    for below, above in pairwise(bands):
        if below.grade and above.grade and below.grade != above.grade:
            coarse, fine = choices.glass.grade(below.grade), choices.glass.grade(above.grade)
            if sifts_through(fine.sieve_from.value, coarse.sieve_to.value):
                voids = sifted_void_fraction(coarse, fine)
                yield (
                    f"{above.name} ({_sieved(fine, choices)}) lies on {below.name} "
                    f"({_sieved(coarse, choices)}): fine grains can sift "
                    f"down, which leaves {format_share(voids.low)} to {format_share(voids.high)} for resin "
                    "there; do not shake the mold, or let the lower band set first."
                )
    yield from _thin_cover(bands, choices)


def _borders(soft: tuple[SoftZone, ...], choices: FillChoices) -> Iterator[str]:
    """What must not be forgotten when the glass of a pour is laid in."""
    for zone in soft:
        ends = [format_length(height, choices.units) for height in (zone.lower, zone.upper)]
        masses = [format_mass(mass, choices.units) for mass in (zone.glass_below, zone.glass_above)]
        yield (
            f"{zone.below.name} goes over into {zone.above.name} from {ends[0]} to {ends[1]} up from the "
            f"mold's floor: hold back {masses[0]} and {masses[1]} of their glass, mix it and lay it in there."
        )


def _sieved(grade: Grade, choices: FillChoices) -> str:
    openings = format_openings(grade.sieve_from.value, grade.sieve_to.value, choices.units)
    return f"{grade.id}, {openings}"


def _thin_cover(bands: tuple[FillBand, ...], choices: FillChoices) -> Iterator[str]:
    top = bands[-1]
    grade = next((band.grade for band in reversed(bands) if band.grade), None)
    if grade is None:
        return
    grain = choices.glass.grade(grade).sieve_to.value
    cover = top.upper - top.lower if top.neat else 0.0
    if cover < grain - 1e-9:
        yield (
            f"Neat resin over the topmost glass is {format_length(cover, choices.units)} deep, its largest "
            f"grain {format_length(grain, choices.units)}: grains will stand out of the open face."
        )
