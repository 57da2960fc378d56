"""Heat of gypsum and concrete as they set, as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.tables import facts
from pourwright.cli.words import Words

Part = Mapping[str, Any]


def setting_heat_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Tell how hot it gets, where and when, and when the mold may be opened.

    Parameters
    ----------
    part : mapping
        The part `setting_heat` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text("How hot it gets", style="bold")
    rows = [
        ("Filled", _filled(part, words)),
        ("Hottest", _hottest(part, words)),
        ("Uneven", _uneven(part, words)),
    ]
    rows += [(limit["name"].capitalize(), _limit(limit, words)) for limit in part["limits"]]
    rows.append(("Open", _open(part, words)))
    yield facts(rows)
    for note in part["notes"]:
        yield Text(note)


def _filled(part: Part, words: Words) -> str:
    return f"at {words.temperature(part['poured_degC'])} in a shop of {words.temperature(part['shop_degC'])}"


def _uneven(part: Part, words: Words) -> str:
    return (
        f"by {words.difference(part['difference_K'])} at most, after {words.duration(part['difference_h'])}"
    )


def _hottest(part: Part, words: Words) -> str:
    up, standing = words.length(part["peak_z_m"]), words.length(part["peak_standing_m"])
    at = f"{up} up from the mold's floor ({standing} as it stands)"
    return f"{words.temperature(part['peak_degC'])} after {words.duration(part['peak_h'])}, {at}"


def _limit(limit: Part, words: Words) -> str:
    told = words.difference if limit["name"] == "core to face" else words.temperature
    over = "goes over its limit of" if limit["over"] else "its limit is"
    return f"{told(limit['reached'])}; {over} {told(limit['limit'])}"


def _open(part: Part, words: Words) -> str:
    if part["open_h"] is None:
        return "it was not hard and cool by the end of the run"
    told = f"after {words.duration(part['open_h'])}"
    if part["even_h"] is None:
        return f"{told}: then it is hard; it stays warm for hours"
    hard, even = words.duration(part["hard_h"]), words.duration(part["even_h"])
    return f"{told}: hard after {hard}, even enough after {even}"
