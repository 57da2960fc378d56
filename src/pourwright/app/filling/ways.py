"""Two ways of filling every band of a job, as part of the fill's document."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from math import isfinite

from pourwright.app.document.notes import general_cautions
from pourwright.app.filling.look import FillLook
from pourwright.app.filling.one_band import told_band
from pourwright.app.setup import ANY_DAY, Setup, site, working_hours
from pourwright.fill.ways.coat import face_coat
from pourwright.fill.ways.defaults import WAYS
from pourwright.foundation.notation import ZERO_CELSIUS
from pourwright.foundation.progress import Progress
from pourwright.jobs.fill_sheet import FillSheet
from pourwright.jobs.fill_ways import BandWays, Filling, NeatCoat
from pourwright.pour.defaults import DEFAULTS as POUR
from pourwright.pour.site import Site
from pourwright.pour.soaking import front
from pourwright.pour.thickening import Thickening, thickening
from pourwright.sheets.fill_ways_drawing import draw_filling
from pourwright.sheets.wording import Wording

HOUR = 3600.0
SHOWN = 10
"""Every so many of the points of a resin's way to gel are written down."""


def ways_look(look: FillLook, progress: Progress) -> Filling | None:
    """Reckon both ways of filling for every band of glass.

    Parameters
    ----------
    look : FillLook
        The fill.
    progress : Progress
        Not needed: it takes a moment.

    Returns
    -------
    Filling or None
        None for a casting material mixed with water, and where no band holds glass.

    Notes
    -----
    As if each band were one pour, begun when the shop opens.
    """
    del progress
    setup = look.setup
    if setup is None or all(band.neat for band in setup.fill.bands):
        return None
    at = site(setup, ANY_DAY)
    start = _opens(setup, at)
    bands = [told_band(setup, at, band, start) for band in setup.fill.bands if not band.neat]
    shop = at.climate.temperature(start)
    alone, met = thickening(setup.resin, at.poured_at(start)), _met(setup, at, start)
    return Filling(
        shop_degC=shop - ZERO_CELSIUS,
        resin_degC=at.poured_at(start) - ZERO_CELSIUS,
        viscosity_Pa_s=float(alone.thick[0]),
        pours_to_Pa_s=max(POUR["pourable_viscosity"].value, 2.0 * float(met.thick[0])),
        stirs_to_Pa_s=WAYS["stirrable_viscosity"].value,
        air_bears=WAYS["bears_air"].value,
        currency=None if look.job.prices is None else look.job.prices.currency,
        bands=bands,
        coat=_coat(setup, thickening(setup.resin, shop)),
        thick_h=[float(time) / HOUR for time in met.times[1::SHOWN]],
        thick_Pa_s=[float(thick) for thick in met.thick[::SHOWN]],
        warnings=list(_warnings(bands)),
        cautions=list(general_cautions()[:1]),
    )


def ways_files(look: FillLook, sheet: FillSheet) -> Iterator[tuple[str, bytes]]:
    """Draw the front and how the resin thickens.

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
    if sheet.filling is not None:
        drawing = draw_filling(look.job.title or "", sheet.filling, Wording(sheet.job))
        yield "drawings/filling.svg", drawing.encode()


def _opens(setup: Setup, at: Site) -> float:
    """When the shop opens on a day without a date [s after the climate's zero]."""
    hours = working_hours(setup.job)
    return at.climate.seconds(datetime.combine(ANY_DAY.date(), hours.opens, hours.zone))


def _met(setup: Setup, at: Site, start: float) -> Thickening:
    """How the resin thickens that has met the deepest band."""
    deepest = max((band for band in setup.fill.bands if not band.neat), key=lambda b: b.upper - b.lower)
    down = front(at, deepest.lower, deepest.upper, start)
    assert down is not None
    return down.flows


def _coat(setup: Setup, flows: Thickening) -> NeatCoat:
    fill = setup.fill
    height = fill.levels.top - fill.levels.bottom
    area = fill.wetted.below(fill.levels.top)
    coat = face_coat(area, height, setup.resin.density.value, flows.times, flows.fluidity)
    return NeatCoat(
        thickness_m=coat.thickness,
        resin_kg=coat.mass,
        thins_to_m=coat.thins_to,
        stands_from_h=coat.stands_from / HOUR if isfinite(coat.stands_from) else None,
        gels_h=coat.gels / HOUR,
    )


def _warnings(bands: list[BandWays]) -> Iterator[str]:
    for band in bands:
        if band.recommended == "stirred-in":
            yield (
                f"{band.band}: stirring the glass in is the better way, but bands, batches and the plan are "
                "reckoned over dry glass; weigh it as told beside the two ways."
            )
        if not band.good:
            yield f"{band.band}: neither way fills it well; see the two ways side by side."
