"""The page of two ways of filling: side by side for every band, and how to do the better one."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.foundation.notation import format_share
from pourwright.jobs.fill_sheet import FillSheet
from pourwright.jobs.fill_ways import BandWays, DryWay, Filling, NeatCoat, StirredWay
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording

DRY, STIRRED = "resin over dry glass", "glass stirred in first"
NAMES = {"over-dry-glass": DRY, "stirred-in": STIRRED}
LEAD = (
    "As if each band were one pour without heat of its own; the plan says which pours they become. Times "
    "of resin in glass are right within a factor of two, air is an estimate: try a small cube of it first."
)
ALT = "The front through the glass of each band, and how the resin thickens"
POURING = (
    "Over dry glass: pour slowly into one low place, best down a tube that stands on the floor, and let the "
    "resin rise: it drives the air up ahead of it. A flood over the whole top shuts the air in "
    "below. Where one tube is too slow, take more of them, or pour along one side."
)
STIRRING = (
    "Stirred in: mix the resin first, then stir the glass in by hand until every grain is wet, without "
    "beating; scoop it in and tamp it gently against the face. The border sinks as told: what stands clear "
    "above it takes dry grains, strewn in before it gels."
)


def ways_pages(sheet: FillSheet, words: Wording) -> Iterator[Page]:
    """Fill the page.

    Parameters
    ----------
    sheet : FillSheet
        With both ways, or without.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    part = sheet.filling
    if part is None:
        return
    yield {
        "title": "Two ways of filling",
        "lead": LEAD,
        "facts": list(_facts(part, words)),
        "blocks": [
            {"drawing": "drawings/filling.svg", "alt": ALT, "height": 185},
            *(block for band in part.bands for block in _band(band, words)),
            {"sub": "How"},
            {"text": POURING},
            {"text": _tube(part, words)},
            {"text": STIRRING},
            {"text": _coat(part.coat, words)},
        ],
    }


def _facts(part: Filling, words: Wording) -> Iterator[dict[str, str]]:
    yield fact(
        "the resin", f"{part.viscosity_Pa_s:.1f} Pa s", f"as mixed, at {words.temperature(part.resin_degC)}"
    )
    yield fact("runs through glass up to", f"{part.pours_to_Pa_s:.0f} Pa s")
    yield fact("a mix is stirred up to", f"{part.stirs_to_Pa_s:.0f} Pa s", "by hand, common practice")
    yield fact("air is hardly seen up to", words.share(part.air_bears), "of a band, common practice")


def _band(band: BandWays, words: Wording) -> Iterator[dict[str, object]]:
    title = f"{band.band}: {band.grade}, {words.length(band.depth_m)} deep"
    rows = list(_rows(band.dry, band.stirred, words))
    yield {"sub": title}
    yield {"text": f"Better: {NAMES[band.recommended]}. {band.reason}"}
    yield {"table": table(["", DRY, STIRRED], rows, "lll"), "size": 9}


def _rows(dry: DryWay, stirred: StirredWay, words: Wording) -> Iterator[list[str]]:
    yield ["in time", _down(dry, words), _placed(stirred, words)]
    air = f"{_fine(stirred.air)} of the band" if stirred.possible else ""
    yield ["air that stays", f"{_fine(dry.air)} of the band", air]
    bubbles = [f"{words.gap(way.bubbles_from_m)} and more" for way in (dry, stirred)]
    yield ["bubbles that come up", f"{bubbles[0]}, past the grains", bubbles[1]]
    bed = ", until its grains touch" if stirred.to_a_bed else ""
    yield ["upper border", "stays", f"sinks {words.length(stirred.sinks_m)}{bed}"]
    share = words.share(stirred.glass_share)
    yield ["glass", words.mass(dry.glass_kg), f"{words.mass(stirred.glass_kg)} at most, {share} of the mix"]
    cost = "" if stirred.costs_more is None else f" ({words.money(stirred.costs_more)})"
    more = f"{words.mass(stirred.resin_kg)}, {words.mass(stirred.more_resin_kg)} more{cost}"
    yield ["resin mixed", words.mass(dry.resin_kg), more]
    works = [f"{way.batches}, {words.duration(way.work_h)}" for way in (dry, stirred)]
    yield ["batches, work", *works]


def _down(dry: DryWay, words: Wording) -> str:
    limit = words.duration(dry.limit_h)
    if dry.down_after_h is None:
        return f"not down after {limit}: too thick"
    return f"down in {words.duration(dry.down_after_h)}, too thick after {limit}"


def _placed(stirred: StirredWay, words: Wording) -> str:
    if not stirred.possible:
        return "too thick to stir glass in"
    limit = words.duration(stirred.batch_limit_h)
    return f"a batch in {words.duration(stirred.batch_h)}, at most {limit}"


def _fine(share: float) -> str:
    return "under 0.1 %" if share < 0.001 else format_share(share, digits=1)


def _tube(part: Filling, words: Wording) -> str:
    told = [f"{band.band} {_through(band.dry, words)}" for band in part.bands]
    return f"Through one tube: {'; '.join(told)}."


def _through(dry: DryWay, words: Wording) -> str:
    if dry.tube_h is None or dry.tube_kg_per_min is None:
        return "takes longer than the resin runs"
    return f"in {words.duration(dry.tube_h)}, {words.mass(dry.tube_kg_per_min)} a minute"


def _coat(coat: NeatCoat, words: Wording) -> str:
    stands = (
        "it never stands there before it gels: take resin thickened for brushing"
        if coat.stands_from_h is None
        else f"left to thicken in a flat tray it stays from {words.duration(coat.stands_from_h)} on; sooner, "
        "take resin thickened for brushing"
    )
    return (
        f"A neat first coat keeps grains from printing on the face: {words.gap(coat.thickness_m)} thick, "
        f"{words.mass(coat.resin_kg)} for the whole face. Brushed on as mixed it runs down to "
        f"{words.gap(coat.thins_to_m)} half-way up; {stands}. Lay the glass once it has gelled and is still "
        f"sticky, about {words.duration(coat.gels_h)} after mixing."
    )
