"""Bands, glass, resin and pours in numbers; the dip-stick."""

from pourwright.jobs.plan import Band, DipRow, PlanDocument, Pour
from pourwright.sheets.pages.common import Page, both_readings, table
from pourwright.sheets.wording import Wording, readings_differ


def fill_page(plan: PlanDocument) -> Page:
    """Fill the page of bands, glass and resin.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    dict
        Three tables and a note on the voids.
    """
    words = Wording(plan.job)
    return {
        "bands": _band_table(plan, words),
        "glass": _glass_table(plan, words),
        "pours": _pour_table(plan, words),
        "resin": _resin_table(plan, words),
        "voids": _void_notes(plan, words),
        "cover": f"Neat cover at the open face: {words.length(plan.fill.neat_cover_m)}.",
    }


def _band_table(plan: PlanDocument, words: Wording) -> Page:
    differ = readings_differ(plan)
    heads = [
        "band",
        "up from the mold's floor",
        *(["as it stands"] if differ else []),
        "glass",
        "voids",
        "resin",
    ]
    rows = [_band_row(band, words, standing=differ) for band in plan.fill.bands]
    return table(heads, rows, "llrrrr"[: len(heads)] if not differ else "lllrrr")


def _band_row(band: Band, words: Wording, *, standing: bool) -> list[str]:
    row = [band.name, words.span(band.from_m, band.to_m)]
    if standing:
        row.append(words.span(band.to_standing_m, band.from_standing_m))
    glass = words.mass(band.glass_kg) if band.kind == "glass" else "neat"
    voids = words.share(band.void_fraction) if band.kind == "glass" else "–"
    return [*row, glass, voids, words.mass(band.resin_kg)]


def _glass_table(plan: PlanDocument, words: Wording) -> Page:
    rows = [
        [
            lot.grade,
            lot.colour,
            words.sieve(lot.sieve_from_m, lot.sieve_to_m),
            words.mass(lot.mass_kg),
            "–" if lot.bottles is None else str(lot.bottles),
        ]
        for lot in plan.fill.glass
    ]
    return table(["grade", "colour", "sieved between", "have ready, dry", "bottles"], rows, "lllrr")


def _pour_table(plan: PlanDocument, words: Wording) -> Page:
    rows = [_pour_row(pour, plan, words) for pour in plan.pours]
    return table(["pour", "starts", "up to", "dip", "resin", "part A", "part B", "batches"], rows, "llrrrrrr")


def _pour_row(pour: Pour, plan: PlanDocument, words: Wording) -> list[str]:
    masses = [words.mass(mass) for mass in (pour.resin_kg, pour.part_a_kg, pour.part_b_kg)]
    level = [both_readings(pour.to_m, pour.to_standing_m, plan, words), words.length(pour.dip_to_m)]
    return [str(pour.number), words.moment(pour.start), *level, *masses, str(len(pour.batches))]


def _resin_table(plan: PlanDocument, words: Wording) -> Page:
    ledger = plan.fill.resin
    entries = {
        "between the glass": ledger.voids_kg,
        "neat bands and cover": ledger.neat_kg,
        "film on the glass and the mold": ledger.film_kg,
        "stays in the pails": ledger.bucket_kg,
        "allowance": ledger.allowance_kg,
        **({"over the open face, planed off": ledger.overfill_kg} if ledger.overfill_kg else {}),
        "all": plan.fill.resin_kg,
    }
    return table(
        ["where the resin goes", ""], [[name, words.mass(mass)] for name, mass in entries.items()], "lr"
    )


def _void_notes(plan: PlanDocument, words: Wording) -> list[str]:
    notes = [
        f"{band.name}: voids {words.share(band.void_fraction)}, between "
        f"{words.share(band.void_fraction_low)} and {words.share(band.void_fraction_high)} "
        f"({band.void_source})."
        for band in plan.fill.bands
        if band.kind == "glass"
    ]
    return list(dict.fromkeys(notes))


def dip_page(plan: PlanDocument) -> Page:
    """Fill the dip-stick page.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    dict
        A table from the rim down; rows where a pour ends are marked.
    """
    words = Wording(plan.job)
    differ = readings_differ(plan)
    heads = ["dip from the rim", "up, as poured", *(["as it stands"] if differ else [])]
    heads += [f"mold holds, {words.bulk_unit}", f"liquid, glass in, {words.bulk_unit}", "level after"]
    # a stick is read from the rim down
    ordered = sorted(plan.dip_stick, key=lambda row: row.dip_m)
    rows = [_dip_row(row, plan, words, standing=differ) for row in ordered]
    return {
        **table(heads, rows, "rrrrrl" if differ else "rrrrl"),
        "marked": [bool(row[-1]) for row in rows],
        "note": "Dip where no glass stands in the way: a stick that rests on glass reads too high. "
        "Liquid is what fits below that height once the glass is in.",
    }


def _dip_row(row: DipRow, plan: PlanDocument, words: Wording, *, standing: bool) -> list[str]:
    marks = [f"pour {pour.number}" for pour in plan.pours if abs(pour.to_m - row.height_m) < 5e-4]
    cells = [words.length(row.dip_m), words.length(row.height_m)]
    if standing:
        cells.append(words.length(row.height_standing_m))
    return [*cells, words.bulk(row.cavity_m3), words.bulk(row.liquid_m3), ", ".join(marks)]
