"""The space blocks as the maker reads them in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.tables import columns, facts
from pourwright.cli.words import Words
from pourwright.foundation.notation import UnitSystem, format_money

Part = Mapping[str, Any]
TITLES = ("", "along x up x off panel", "boards", "screwed to", "from left", "from foot", "screws", "holds")


def blocks_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Tell every block and what all of them save.

    Parameters
    ----------
    part : mapping
        The part `blocks` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text.assemble(("Space blocks", "bold"), f" of {part['board']}; panels seen from inside")
    if not part["blocks"]:
        yield from (Text(text) for text in part["words"])
        return
    table = columns(TITLES)
    for block in part["blocks"]:
        table.add_row(
            block["letter"],
            words.size(block["size_m"]),
            f"{block['layers']} of {words.length(block['board_m'])}",
            block["panel"],
            words.length(block["left_m"]),
            words.length(block["foot_m"]),
            f"{block['screws']}, {words.length(block['screw_length_m'])}",
            words.volume(block["volume_m3"]),
        )
    yield table
    yield facts(list(_rows(part, words)))


def _rows(part: Part, words: Words) -> Iterator[tuple[str, str]]:
    yield "They save", saving_words(part, words)
    yield "How good", " ".join(part["words"])
    yield "Screws", f"{screw_words(part, words)}, from outside through the panel, predrilled"
    yield "Coats", part["sealed"]
    told = "its letter stamped on the face at the panel and written on the panel"
    twins = any(block["twins"] for block in part["blocks"])
    yield "Each in its place", f"{told}; in blocks of one size the screws sit differently" if twins else told


def saving_words(part: Part, words: Words) -> str:
    """Say what rubber is saved against sawing and board."""

    def money(key: str) -> str:
        amount = part[key]
        return "" if amount is None else f" ({format_money(amount, part['currency'])})"

    rubber = f"{words.volume(part['volume_m3'])} or {words.mass(part['rubber_kg'])} of rubber"
    told = (
        f"{rubber}{money('rubber_money')}, "
        f"for {words.duration(part['sawing_h'])} of work{money('sawing_money')} "
        f"and {words.area(part['wood_m2'])} of board{money('wood_money')}"
    )
    if part["saves_money"] is None:
        return f"{told}; no sum: the job does not give {' and '.join(part['missing'])}"
    return f"{told}: {format_money(part['saves_money'], part['currency'])} in all"


def screw_words(part: Part, words: Words) -> str:
    """Say which screws."""
    return "No. 8" if words.system is UnitSystem.US else f"{1000 * part['screw_diameter_m']:.0f} mm"
