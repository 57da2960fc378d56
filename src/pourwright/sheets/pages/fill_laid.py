"""The page of bands: glass and resin of each, what to have ready, where the resin goes."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.fill_sheet import FillSheet
from pourwright.jobs.plan import Band, Fill, GlassLot
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording

HEADS = ["band", "up from the mold's floor", "as it stands", "glass", "grade", "colour", "voids", "resin"]
READY = ["grade", "colour", "sieved between", "have ready, dry", "bottles"]


def laid_pages(sheet: FillSheet, words: Wording) -> Iterator[Page]:
    """Fill the page.

    Parameters
    ----------
    sheet : FillSheet
        With its bands, or none.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    laid = sheet.laid
    if laid is None:
        return
    where = [{"small": text} for text in _voids(laid, words)]
    ledger = laid.resin
    goes = {
        "between the glass": ledger.voids_kg,
        "neat bands and cover": ledger.neat_kg,
        "film on the glass and the mold": ledger.film_kg,
        "stays in the pails": ledger.bucket_kg,
        "allowance": ledger.allowance_kg,
        **({"over the open face, planed off": ledger.overfill_kg} if ledger.overfill_kg else {}),
    }
    yield {
        "title": "What goes in",
        "lead": "Heights are those of the mold as it is poured, and of the piece as it stands.",
        "facts": list(_facts(sheet, laid, words)),
        "blocks": [
            {"table": table(HEADS, [_band(band, words) for band in laid.bands], "lllrllrr"), "size": 8.5},
            *where,
            {"sub": "Glass to have ready"},
            {"table": table(READY, [_lot(lot, words) for lot in laid.glass], "lllrr")},
            {"sub": "Where the resin goes"},
            {"table": table(["", ""], [[name, words.mass(mass)] for name, mass in goes.items()], "lr")},
        ],
    }


def _facts(sheet: FillSheet, laid: Fill, words: Wording) -> Iterator[dict[str, str]]:
    yield fact("glass", words.mass(laid.glass_kg), "dry, in the piece")
    yield fact("resin", words.mass(laid.resin_kg), "mixed, all losses in it")
    yield fact("the piece", words.mass(sheet.piece.mass_kg))
    yield fact("neat cover", words.length(laid.neat_cover_m), "over the glass at the open face")


def _band(band: Band, words: Wording) -> list[str]:
    neat = band.kind == "neat"
    return [
        band.name,
        words.span(band.from_m, band.to_m),
        words.span(band.to_standing_m, band.from_standing_m),
        "neat" if neat else words.mass(band.glass_kg),
        band.grade or "",
        band.colour or "",
        "" if neat else words.share(band.void_fraction),
        words.mass(band.resin_kg),
    ]


def _lot(lot: GlassLot, words: Wording) -> list[str]:
    count = "–" if lot.bottles is None else str(lot.bottles)
    sieved = words.sieve(lot.sieve_from_m, lot.sieve_to_m)
    return [lot.grade, lot.colour, sieved, words.mass(lot.mass_kg), count]


def _voids(laid: Fill, words: Wording) -> list[str]:
    told = [
        f"{band.name}: voids {words.share(band.void_fraction)}, between "
        f"{words.share(band.void_fraction_low)} and {words.share(band.void_fraction_high)} "
        f"({band.void_source})."
        for band in laid.bands
        if band.kind == "glass"
    ]
    return list(dict.fromkeys(told))
