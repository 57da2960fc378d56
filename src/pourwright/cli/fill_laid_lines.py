"""Bands, glass and resin, as the maker reads them in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.cli.tables import columns, facts
from pourwright.cli.words import Words

Part = Mapping[str, Any]


def laid_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Tell what each band takes.

    Parameters
    ----------
    part : mapping
        The part `laid` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text("What goes in", style="bold")
    yield _bands(part, words)
    lots = [f"{words.mass(lot['mass_kg'])} {lot['colour']} {lot['grade']}" for lot in part["glass"]]
    yield facts(
        [
            ("Glass", ", ".join(lots) or "none"),
            ("Resin", f"{words.mass(part['resin_kg'])} mixed, all losses in it"),
        ]
    )


def _bands(part: Part, words: Words) -> Table:
    table = columns(
        ["band", "up from the floor", "as it stands", "glass", "grade", "colour", "voids", "resin"]
    )
    # names break before a figure is cut off
    for name in (0, 1, 2, 4, 5):
        table.columns[name].no_wrap = False
    for band in reversed(part["bands"]):
        neat = band["kind"] == "neat"
        table.add_row(
            band["name"],
            _span(band["from_m"], band["to_m"], words),
            _span(band["to_standing_m"], band["from_standing_m"], words),
            "neat" if neat else words.mass(band["glass_kg"]),
            band["grade"] or "",
            band["colour"] or "",
            ""
            if neat
            else f"{words.share(band['void_fraction_low'])} to {words.share(band['void_fraction_high'])}",
            words.mass(band["resin_kg"]),
        )
    return table


def _span(low: float, high: float, words: Words) -> str:
    return f"{words.length(low)} to {words.length(high)}"
