"""Shrinking, sinking, planing and sanding, as the maker reads them in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.cli.tables import columns, facts
from pourwright.cli.words import Words

Part = Mapping[str, Any]
POURED = {"neat": "neat", "bed": "a bed that touches", "stirred": "stirred in"}


def shrinks_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Tell what shrinks, how far the top sinks, what is planed and sanded.

    Parameters
    ----------
    part : mapping
        The part `shrinks` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text("What shrinks, what is planed and sanded", style="bold")
    yield _bands(part)
    yield facts(
        [
            ("Open face", _sinks(part, words)),
            ("Overfill", _overfill(part, words)),
            ("To plane off", _planed(part, words)),
            *_sanding(part, words),
        ]
    )


def _bands(part: Part) -> Table:
    table = columns(["band", "as poured", "by volume", "of it sinks", "by length", "stirred in", "gaps"])
    for band in reversed(part["bands"]):
        table.add_row(
            band["band"],
            POURED[band["poured"]],
            "not by the rule" if band["poured"] == "bed" else _share(band["by_volume"]),
            _share(band["before_gel"]),
            f"{_share(band['by_length_low'])} to {_share(band['by_length_high'])}",
            "" if band["poured"] == "neat" else _share(band["by_volume"]),
            f"up to {_share(band['gaps_high'])}" if band["poured"] == "bed" else "",
        )
    return table


def _share(share: float) -> str:
    return f"{100 * share:.2f} %"


def _sinks(part: Part, words: Words) -> str:
    likely, most = words.bend(max(part["sink_m"], 0.0)), words.bend(max(part["sink_most_m"], 0.0))
    whole, last = words.bend(max(part["sink_all_m"], 0.0)), " and ".join(part["sinks_of"])
    told = f"sinks by {likely} until it gels, at most {most}, {last} poured last"
    return told if len(part["sinks_of"]) == len(part["bands"]) else f"{told}; all in one pour {whole}"


def _overfill(part: Part, words: Words) -> str:
    wanted = f"{words.bend(part['wanted_m'])} wanted, {words.mass(part['wanted_kg'])}"
    if not part["overfill_m"]:
        return f"{wanted}; none is mixed (fill.overfill)"
    return f"{wanted}; {words.bend(part['overfill_m'])} mixed, {words.mass(part['overfill_kg'])}"


def _planed(part: Part, words: Words) -> str:
    least, most = (words.bend(part[f"planed_{end}_m"]) for end in ("least", "most"))
    return f"{least} where it sinks by the most, else up to {most}"


def _sanding(part: Part, words: Words) -> Iterator[tuple[str, str]]:
    for number, grade in enumerate(part["sanded"]):
        shares = ", ".join(
            f"{words.bend(depth)}: {words.share(share)}"
            for depth, share in zip(part["sand_depths_m"], grade["glass_shares"], strict=True)
        )
        yield (
            "" if number else "Sanded off the sides",
            f"{grade['grade']}, glass on the face at {shares}",
        )
