"""Batches of resin, as the maker reads them in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.cli.tables import columns, facts
from pourwright.cli.words import Words

Part = Mapping[str, Any]
WHY = {"pail": "three quarters of the pail", "scale": "what the scale carries", "heat": "its own heat"}


def batches_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Tell how the resin is weighed and mixed.

    Parameters
    ----------
    part : mapping
        The part `batches` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text("Mixing, band by band", style="bold")
    yield _steps(part, words)
    yield facts(
        [
            ("Batch", f"{words.mass(part['most_kg'])} at most, by {WHY[part['most_by']]}"),
            ("In the mold", f"the largest batch within {words.duration(part['in_mold_within_h'])} of mixing"),
            ("Ratio", _ratio(part, words)),
            ("By volume", f"100 : {part['b_by_volume']:.1f}; weigh where you can"),
            ("Colour", (f"{words.weighed(part['tint_batch_kg'])} at most in the largest batch, "
             f"{words.share(part['tint_share'])}; the same share in every one")),
            ("Level", ("by weight first; in glass read it in a clear tube that stands in the bed: "
             "a dip cannot be read inside the bed")),
        ]
    )  # fmt: skip


def _steps(part: Part, words: Words) -> Table:
    table = columns(["band", "batch", "A", "B", "in after", "level up", "as it stands", "dip"])
    for band in part["bands"]:
        for step in band["batches"]:
            table.add_row(
                band["band"] if step["number"] == 1 else "",
                f"{step['number']} of {len(band['batches'])}",
                words.weighed(step["part_a_kg"]),
                words.weighed(step["part_b_kg"]),
                words.duration(step["in_after_h"]),
                words.length(step["level_m"]),
                words.length(step["level_standing_m"]),
                "in the bed" if band["glass"] else words.length(step["dip_m"]),
            )
    return table


def _ratio(part: Part, words: Words) -> str:
    a, b = part["parts_by_weight"]
    off, step = f"{100 * abs(part['worst_ratio_error']):.2f} %", words.weighed(part["scale_step_kg"])
    told = f"{a:g} : {b:g} by weight; the scale's {step} puts B off by {off} at most"
    return f"{told}: too much" if part["ratio_matters"] else f"{told}, which does not matter"
