"""The box under load, as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType

from pourwright.cli.tables import facts
from pourwright.cli.words import Words

Part = Mapping[str, Any]


def box_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Tell how far each kind of panel bulges and what holds it.

    Parameters
    ----------
    part : mapping
        The part `box` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    rows = [(f"Box, {panel['name']}", _panel(panel, words)) for panel in part["panels"]]
    lifted = "one person lifts it" if part["people"] == 1 else f"{part['people']} people"
    lifted = "a hoist, or a trolley at table height" if part["people"] > 2 else lifted
    yield facts([*rows, ("Filled mold", f"{words.mass(part['filled_kg'])}: {lifted}")])


def _panel(panel: Part, words: Words) -> str:
    bare = f"bulges {words.fine(panel['bulge_m'])} bare under {panel['liquid']}"
    if panel["battens"] is None:
        return f"{bare}; {panel['battens_reason']}"
    if panel["battens"] == 0:
        return f"{bare}: no battens"
    return f"{bare}; {panel['battens']} battens hold it at {words.fine(panel['held_m'])}"
