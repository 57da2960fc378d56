"""Two pages of a test cube: its recipe to tick off, and what is measured with where it goes."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.fill_cube import CubeLayer, Measure, TestCube
from pourwright.jobs.fill_sheet import FillSheet
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording

HEADS = ["", "layer", "up from its floor", "glass, dry", "grade", "colour", "resin in it"]
MEASURES = ["", "measure", "how", "reckoned with", "found", "key"]
LINE = "________"


def cube_pages(sheet: FillSheet, words: Wording) -> Iterator[Page]:
    """Fill the pages.

    Parameters
    ----------
    sheet : FillSheet
        With its test cube, or none.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    part = sheet.cube
    if part is None:
        return
    rows = [_layer(layer, words) for layer in reversed(part.layers)]
    yield {
        "title": "A test cube, poured first",
        "lead": "The bands of the piece in small, with the same glass, resin and shop.",
        "facts": list(_facts(sheet, part, words)),
        "blocks": [
            {"table": table(HEADS, rows, "lllrllr"), "ticks": True, "size": 9},
            {"sub": "In this order"},
            {"table": table(["", ""], [["", step] for step in part.steps], "ll"), "ticks": True},
            *({"small": text} for text in part.notes),
        ],
    }
    yield {
        "title": "What the test cube says, and where it goes",
        "lead": "Write it down as it is measured; then into the files, and run pourwright again.",
        "blocks": [
            {"table": table(MEASURES, map(_measure, part.measures), "llllrl"), "ticks": True, "size": 8.5},
            {"sub": "Into the job file, each line in the table that is there already"},
            *({"text": line} for line in part.job_lines),
            {"sub": "Into the facts of the resin, for pourwright fit"},
            *({"text": line} for line in part.facts_lines),
        ],
    }


def _facts(sheet: FillSheet, part: TestCube, words: Wording) -> Iterator[dict[str, str]]:
    whole = 0.0 if sheet.laid is None else sheet.laid.resin_kg
    share = f"mixed; {words.share(part.resin_kg / whole)} of the piece's" if whole else "mixed"
    yield fact("edge", words.length(part.edge_m), f"{words.mass(part.mass_kg)} once poured")
    yield fact("glass", words.weighed(part.glass_kg), "dry")
    yield fact("resin", words.weighed(part.resin_kg), share)
    peak = "runs away" if part.peak_degC is None else words.temperature(part.peak_degC)
    yield fact("middle gets", peak, f"poured at once; limit {words.temperature(part.peak_limit_degC)}")


def _layer(layer: CubeLayer, words: Wording) -> list[str]:
    return [
        "",
        layer.band,
        words.span(layer.from_m, layer.to_m),
        words.weighed(layer.glass_kg) if layer.grade else "neat",
        layer.grade or "",
        layer.colour or "",
        words.weighed(layer.resin_kg),
    ]


def _measure(each: Measure) -> list[str]:
    keys = ", ".join(each.goes_to) or "no key: look, and decide"
    return ["", each.what, each.how, each.expected, f"{LINE} {each.blank}".strip(), keys]
