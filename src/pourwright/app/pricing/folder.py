"""The folder that ``cost --out`` writes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from pourwright.app.own_folder import OwnFolder
from pourwright.app.plan_files import folder_name
from pourwright.app.pricing.look import CostLook
from pourwright.app.pricing.offering import offer_of
from pourwright.app.pricing.standing import asked_words, stance_of
from pourwright.app.shaping.piece import read_piece
from pourwright.foundation.files import canonical_json
from pourwright.jobs.cost_sheet import SCHEMA, CostSheet
from pourwright.sheets.costs.lines_csv import costs_csv
from pourwright.sheets.costs.offer import offer_pdf
from pourwright.sheets.costs.price_sheet import price_sheet_pdf
from pourwright.sheets.costs.workbook import workbook_of

OF_A_VARIANT = ("price-sheet.pdf", "offer.pdf")
COST_FOLDER = OwnFolder(
    "a cost", "cost.json", SCHEMA.partition("/")[0], (*OF_A_VARIANT, *(f"*/{name}" for name in OF_A_VARIANT))
)
"""Sheets of a variant that is no more go; whatever else lies there is the maker's."""
SEVERAL = "pourwright-costs/1.0"


def costs_json(sheets: Sequence[CostSheet]) -> dict[str, Any]:
    """The document of one variant, or those of several.

    Parameters
    ----------
    sheets : sequence of CostSheet
        One for each variant.

    Returns
    -------
    dict
        As JSON.
    """
    told = [sheet.model_dump(mode="json", by_alias=True) for sheet in sheets]
    return told[0] if len(told) == 1 else {"schema": SEVERAL, "costs": told}


def cost_files(looks: Sequence[CostLook], sheets: Sequence[CostSheet]) -> dict[str, bytes]:
    """Make every file of a cost.

    Parameters
    ----------
    looks : sequence of CostLook
        Plan and prices of each variant.
    sheets : sequence of CostSheet
        All that was told of them.

    Returns
    -------
    dict
        Content by path: ``cost.json``, ``costs.xlsx``, ``costs.csv``; price sheet and offer, in a
        folder for each variant where there are several.
    """
    made = {
        "cost.json": canonical_json(costs_json(sheets)),
        "costs.xlsx": workbook_of(sheets),
        "costs.csv": costs_csv(sheets),
    }
    for look, sheet in zip(looks, sheets, strict=True):
        place = f"{folder_name(sheet.job.variant)}/" if len(sheets) > 1 else ""
        made |= {f"{place}{name}": content for name, content in _of_one(look, sheet)}
    return made


def _of_one(look: CostLook, sheet: CostSheet) -> Iterator[tuple[str, bytes]]:
    piece = read_piece(look.job)
    stance = stance_of(look.planned, piece)
    yield "price-sheet.pdf", price_sheet_pdf(sheet, list(asked_words(stance, look.system)))
    yield "offer.pdf", offer_pdf(offer_of(look, sheet, piece, stance))
