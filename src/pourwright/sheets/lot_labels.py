"""Labels for tubs, sacks and boards: what a lot is, and its number for a camera."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from pourwright.sheets.codes import qr_picture
from pourwright.sheets.setting import set_sheet

PAPERS = {"A4": "a4", "letter": "us-letter"}


@dataclass(frozen=True, kw_only=True)
class LotLabel:
    """What stands on the label of a lot.

    Parameters
    ----------
    number : int
        Of the lot.
    name : str
        What it is called.
    what : sequence of str
        Material, colour and grade, or part.
    dates : sequence of (str, str)
        A word, as Opened, and the day; a day that is not known is left to be written.
    """

    number: int
    name: str
    what: Sequence[str]
    dates: Sequence[tuple[str, str]]


def labels_pdf(labels: Sequence[LotLabel], paper: Literal["A4", "letter"]) -> bytes:
    """Set a sheet of labels, ten to a page; the same labels give the same bytes.

    Parameters
    ----------
    labels : sequence of LotLabel
        In their order.
    paper : str
        Of the shop.

    Returns
    -------
    bytes
        A PDF file.
    """
    content = {
        "paper": PAPERS[paper],
        "labels": [
            {
                "number": one.number,
                "name": one.name,
                "what": list(one.what),
                "dates": [{"word": word, "day": day} for word, day in one.dates],
            }
            for one in labels
        ],
    }
    codes = {f"lot-{one.number}.svg": qr_picture(f"pourwright lot {one.number}") for one in labels}
    return set_sheet("lot_labels.typ", content, codes)
