"""What is said in words of bands: missing, moving, mixed at the border, with a shell, upside down."""

from __future__ import annotations

import math
from collections.abc import Iterator

from pourwright.app.heights import in_both
from pourwright.app.setup import Setup
from pourwright.fill.parts import FillBand
from pourwright.fill.soft_borders import SoftZone
from pourwright.fill.stock import Missing
from pourwright.fill.tapping import Tapping
from pourwright.foundation.notation import UnitSystem, format_length, format_mass, format_share
from pourwright.jobs.fill_bands import BandsTold

LENGTH_STEP = {UnitSystem.METRIC: 0.005, UnitSystem.US: 0.00635}
"""Nobody knows better how far a bed moves: 5 mm or a quarter of an inch [m]."""
MASS_STEP = {UnitSystem.METRIC: 0.5, UnitSystem.US: 0.45359237}
"""The same for its glass: half a kilogram or a pound [kg]."""


def coarse_length(metres: float, system: UnitSystem) -> str:
    """Say how far a bed moves, no finer than anybody knows.

    Parameters
    ----------
    metres : float
        [m]
    system : UnitSystem
        Of the words.

    Returns
    -------
    str

    Examples
    --------
    >>> coarse_length(0.0173, UnitSystem.METRIC), coarse_length(0.001, UnitSystem.METRIC)
    ('15 mm', 'under 5 mm')
    >>> coarse_length(0.0173, UnitSystem.US)
    '3/4 in'
    """
    step = LENGTH_STEP[system]
    steps = round(metres / step)
    text = format_length(max(steps, 1) * step, system, digits=0)
    return text if steps else f"under {text}"


def coarse_mass(kilograms: float, system: UnitSystem, *, up: bool = False) -> str:
    """Say how much glass that is, no finer than anybody knows.

    Parameters
    ----------
    kilograms : float
        [kg]
    system : UnitSystem
        Of the words.
    up : bool
        Whether it must be enough: then it is rounded up.

    Returns
    -------
    str

    Examples
    --------
    >>> coarse_mass(2.62, UnitSystem.METRIC), coarse_mass(2.62, UnitSystem.METRIC, up=True)
    ('2.5 kg', '3 kg')
    >>> coarse_mass(0.1, UnitSystem.METRIC), coarse_mass(2.62, UnitSystem.US)
    ('under 0.5 kg', '6 lb')
    """
    steps = math.ceil(kilograms / MASS_STEP[system] - 1e-9) if up else round(kilograms / MASS_STEP[system])
    count = max(steps, 1)
    text = f"{0.5 * count:g} kg" if system is UnitSystem.METRIC else f"{count} lb"
    return text if steps else f"under {text}"


def standing_words(setup: Setup) -> Iterator[str]:
    """Where each band is as the piece stands, where it is poured upside down; its top first.

    Parameters
    ----------
    setup : Setup
        Bands and frame.

    Yields
    ------
    str
    """
    if not setup.piece.frame.flipped:
        return
    bands = setup.fill.bands
    for number, band in enumerate(bands):
        place = "below that" if number else "at the top of the piece as it stands"
        place = "at the foot of the piece as it stands" if number and number == len(bands) - 1 else place
        yield f"{band.name} ({_called(band)}) is {place}: {_spans(setup, band.lower, band.upper)}."


def _called(band: FillBand) -> str:
    if band.grade is None:
        return "neat"
    shell = "" if band.shell is None else f" in a shell of {band.shell.colour}"
    return f"{band.colour or 'any colour'}, {band.grade}{shell}"


def _spans(setup: Setup, lower: float, upper: float) -> str:
    """Both readings of a stretch of height."""
    frame, system = setup.piece.frame, setup.system
    poured = f"{format_length(lower, system)} to {format_length(upper, system)} up from the mold's floor"
    if not frame.flipped:
        return poured
    ends = (format_length(max(frame.as_standing(end), 0.0), system) for end in (upper, lower))
    return f"{poured}, {' to '.join(ends)} as it stands"


def missing_words(setup: Setup, one: Missing, bottles: int | None) -> str:
    """Say what is missing and the ways out.

    Parameters
    ----------
    setup : Setup
        Frame and units.
    one : Missing
        Of one band.
    bottles : int or None
        To crush for it; None where it is bought.

    Returns
    -------
    str
    """
    system = setup.system
    amount = coarse_mass(one.missing, system, up=True)
    glass = f"{one.colour or 'any'} {one.grade}"
    ways = []
    if one.ends_at is not None and one.ends_at > one.band.lower + 1e-6:
        ways.append(f"the band ends at {in_both(setup.piece.frame, one.ends_at, system)}")
    if one.mix_in:
        ways.append(f"mix in {format_share(one.share)} {one.mix_in}")
    ways.append(f"buy {amount}" if bottles is None else f"crush {bottles} more bottles, or buy it")
    none = "" if one.there > 0.0 else ", there is none left"
    return f"{one.band.name}: {amount} of {glass} glass is missing{none}: {', or '.join(ways)}."


def moves_words(one: Tapping, system: UnitSystem) -> str:
    """Say how far a bed settles and sinks.

    Parameters
    ----------
    one : Tapping
        Of one band.
    system : UnitSystem
        Of the words.

    Returns
    -------
    str
    """
    if one.already:
        return f"{one.band.name} is weighed as tapped: tap it until it stops sinking, or it takes less glass."
    sinks, settles = about(coarse_length(one.sinks, system)), about(coarse_length(one.settles, system))
    ends = coarse_length(one.sinks_least, system), coarse_length(one.sinks_most, system)
    more = about(coarse_mass(one.more_glass, system))
    return (
        f"{one.band.name} sinks by {sinks} if it is tapped ({ends[0]} to {ends[1]}) and then takes "
        f"{more} more glass; by itself it settles by {settles}."
    )


def about(text: str) -> str:
    """Say that a figure is rough, where it does not say so itself."""
    return text if text.startswith("under") else f"about {text}"


def soft_words(setup: Setup, zone: SoftZone) -> str:
    """Say how a soft border is made.

    Parameters
    ----------
    setup : Setup
        Frame and units.
    zone : SoftZone
        The border.

    Returns
    -------
    str
    """
    below, above = (format_mass(mass, setup.system) for mass in (zone.glass_below, zone.glass_above))
    closes = ""
    if zone.closes > 0.0:
        moved = about(coarse_length(zone.closes, setup.system))
        closes = f" Two sizes lie closer mixed: it sinks by {moved}, which takes more of {zone.above.name}."
    return (
        f"{zone.below.name} goes over into {zone.above.name}: {_spans(setup, zone.lower, zone.upper)}. "
        f"Hold back {below} of {zone.below.name} ({_called(zone.below)}) and {above} of {zone.above.name} "
        f"({_called(zone.above)}), mix them dry and lay them in between.{closes}"
    )


def shell_words(setup: Setup, band: FillBand) -> str:
    """Say how a shell of colour is filled.

    Parameters
    ----------
    setup : Setup
        Units.
    band : FillBand
        With a shell.

    Returns
    -------
    str
    """
    assert band.shell is not None  # asked for bands with a shell only
    core = band.glass_mass - band.shell_mass
    masses = [format_mass(mass, setup.system) for mass in (band.shell_mass, core)]
    thick, share = format_length(band.shell.thickness, setup.system), band.shell.volume / band.volume
    return (
        f"{band.name} has a shell of {band.shell.colour}, {thick} thick along the wall: {masses[0]} of "
        f"{band.shell.colour} ({format_share(share)} of the band), {masses[1]} of "
        f"{band.colour or 'any colour'} inside."
    )


def notes(told: BandsTold) -> Iterator[str]:
    """What holds for all bands.

    Parameters
    ----------
    told : BandsTold
        Numbers.

    Yields
    ------
    str
    """
    if told.shells:
        yield (
            "Keep shell and core apart with a tube or a rolled sheet that stands that far from the wall: "
            "fill both sides by turns, two or three grains high, and draw it up as you go (common practice, "
            "no source). The floor counts as wall: where a band lies on it the shell covers it first."
        )
    if any(not one.weighed_as_tapped for one in told.moves):
        yield (
            "The bands are weighed as poured: do not tap the mold, or tap every band and write tapped = "
            "true. How far it moves is known no better than told: lay glass to the mark, not to the scale."
        )
    if told.missing:
        yield "Glass in stock is used up from the mold's floor; voids are taken at their likely value."
