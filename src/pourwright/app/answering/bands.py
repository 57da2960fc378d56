"""Every band as the page shows it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from pourwright.app.answering.document import BandsTold, BandTold, Number
from pourwright.app.answering.numbers import height_of, number
from pourwright.app.checking import jam_findings
from pourwright.app.document.parts import fill_part
from pourwright.app.jamming import jam_known
from pourwright.app.setup import Setup
from pourwright.fill import FillBand
from pourwright.fill.glass import NO_COLOUR, glass_lot
from pourwright.foundation.notation import UnitSystem, format_mass, format_share, format_volume
from pourwright.foundation.quantities import UNITS, Dimension
from pourwright.sheets.tones import Tone, tones_of

QUICK = 30_000
"""Triangles up to which sections take a moment."""
FINEST = {UnitSystem.METRIC: ("mm", 10), UnitSystem.US: ("in", 64)}
"""Unit and parts of it in which a border is written to the job file."""


def bands_told(setup: Setup) -> BandsTold:
    """Tell every band of a fill.

    Parameters
    ----------
    setup : Setup
        With piece, mold and fill.

    Returns
    -------
    BandsTold
    """
    tones = tones_of(fill_part(setup).bands)
    bands = setup.fill.bands
    told = [_band(setup, band, place, tones[band.grade, band.colour]) for place, band in enumerate(bands, 1)]
    return BandsTold(
        bands=told,
        totals=list(_totals(setup, told)),
        stops=[finding.line for finding in jam_findings(setup)] if jams_quickly(setup) else [],
        warnings=list(setup.fill.warnings),
    )


def jams_quickly(setup: Setup) -> bool:
    """Say whether it takes a moment to see if the glass gets down into its bands; of a fine mesh, seconds.

    Parameters
    ----------
    setup : Setup
        With piece and fill.

    Returns
    -------
    bool
    """
    return len(setup.piece.mesh.faces) <= QUICK or jam_known(setup)


def written_length(length: float, system: UnitSystem) -> str:
    """Write a height for the job file, finer than anybody reads a tape.

    Parameters
    ----------
    length : float
        [m]
    system : UnitSystem
        Metric or US.

    Returns
    -------
    str

    Examples
    --------
    >>> written_length(0.2405, UnitSystem.METRIC), written_length(0.2143125, UnitSystem.US)
    ('240.5 mm', '8 7/16 in')
    """
    unit, parts = FINEST[system]
    steps = Fraction(round(Fraction(length) / UNITS[Dimension.LENGTH][unit].factor * parts), parts)
    if system is UnitSystem.METRIC:
        return f"{float(steps):g} {unit}"
    whole, rest = divmod(steps, 1)
    shown = [str(whole)] * bool(whole) + [str(rest)] * bool(rest)
    return f"{' '.join(shown) or '0'} {unit}"


def _band(setup: Setup, band: FillBand, place: int, tone: Tone) -> BandTold:
    system = setup.system
    ledger = setup.fill.resin_between(band.lower, band.upper)
    bottles = _bottles(setup, band)
    lower, upper = height_of(setup, band.lower), height_of(setup, band.upper)
    glass, resin = format_mass(band.glass_mass, system), format_mass(band.resin_mass, system)
    called = "neat" if band.neat else f"{band.colour or 'any colour'}, {band.grade}"
    made = len(setup.batches(ledger.total))
    takes = f"{resin} of resin" if band.neat else f"{glass} of glass, {resin} of resin"
    return BandTold(
        name=band.name,
        number=place if place <= len(setup.job.band) else None,
        kind="neat" if band.neat else "glass",
        grade=band.grade,
        colour=band.colour,
        called=called,
        tone=tone.ground,
        pattern=tone.pattern,
        lower=lower,
        upper=upper,
        written=_written(setup, band, system),
        volume_m3=band.volume,
        volume_text=format_volume(band.volume, system),
        void_fraction=band.void_fraction,
        void_text=format_share(band.void_fraction),
        void_source=band.void_source,
        glass_kg=band.glass_mass,
        glass_text="" if band.neat else glass,
        resin_kg=band.resin_mass,
        resin_text=resin,
        mixed_kg=ledger.total,
        mixed_text=format_mass(ledger.total, system),
        bottles=bottles,
        bottles_text="" if band.neat else "bought graded" if bottles is None else f"{bottles} bottles",
        batches=made,
        batches_text="1 batch" if made == 1 else f"{made} batches",
        words=f"{band.name}, {called}: {lower.text} to {upper.text} up from the mold's floor, {takes}",
    )


def _written(setup: Setup, band: FillBand, system: UnitSystem) -> str:
    """What the maker wrote, where it is this height; else the height itself."""
    over = band.upper >= setup.fill.levels.top - 1e-9
    covered = setup.fill.neat_cover > 0.0 and any(band is one for one in setup.fill.bands[-2:-1])
    if over or covered:
        return "top"
    for one in setup.job.band:
        if one.to is not None and abs(one.to.si - band.upper) < 1e-9:
            return one.to.text
    return written_length(band.upper, system)


def _bottles(setup: Setup, band: FillBand) -> int | None:
    lots = [
        glass_lot(grade, colour or NO_COLOUR, mass, setup.fill.choices) for grade, colour, mass in band.lots
    ]
    counts = [lot.bottles for lot in lots if lot.bottles is not None]
    return max(counts, default=None)


def _totals(setup: Setup, told: list[BandTold]) -> Iterator[Number]:
    fill, system = setup.fill, setup.system
    yield number("glass_kg", "glass", fill.glass_mass, system)
    yield number("resin_kg", "resin in the piece", fill.resin_in_piece, system)
    yield number("mixed_kg", "resin to mix", fill.resin_mixed, system, "film, pail and spare in it")
    yield number("piece_mass_kg", "the piece", setup.piece_mass, system)
    for colour, count in fill.bottles_by_colour:
        yield number(f"bottles_{colour.replace(' ', '_')}_count", f"bottles, {colour}", count, system)
    batches = sum(band.batches for band in told)
    yield number("batches_count", "batches of resin", batches, system, "mixed band by band")
