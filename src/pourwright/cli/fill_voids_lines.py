"""Grades and voids, as the maker reads them in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.tables import columns
from pourwright.cli.words import Words

Part = Mapping[str, Any]


def voids_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Tell the room that the grains leave.

    Parameters
    ----------
    part : mapping
        The part `voids` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text("Grades and voids", style="bold")
    table = columns(["band", "glass", "in the bucket", "in the mold", "between", "if the finer sifts in"])
    for band in part["bands"]:
        sifts = band["sifts_low"]
        table.add_row(
            band["band"],
            band["grade"],
            f"{100 * band['bucket']:.1f} %",
            f"{100 * band['mold']:.1f} %",
            _span(band["mold_low"], band["mold_high"], words),
            "-" if sifts is None else _span(sifts, band["sifts_high"], words),
        )
    yield table
    yield from (Text(closer["words"]) for closer in part["closer"])
    yield from (Text(text) for text in part["words"])


def _span(low: float, high: float, words: Words) -> str:
    return f"{words.share(low)} to {words.share(high)}"
