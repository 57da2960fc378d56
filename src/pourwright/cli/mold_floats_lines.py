"""What floats and what holds it, as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.tables import columns, facts
from pourwright.cli.words import Words

Part = Mapping[str, Any]
NEWTONS = 9.80665


def floats_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Tell lift, bars, screws and space blocks.

    Parameters
    ----------
    part : mapping
        The part `floats` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text("\nWhat floats", style="bold")
    rows = [("Master", _master(part, words))]
    if part["bars"]:
        rows.append(("Weight", _weight(part, words)))
        rows.append(("Bars", _bars(part["bars"], words)))
    if part["screws"]:
        rows.append(("Screws", _screws(part, words)))
    yield facts(rows)
    if part["blocks"]:
        yield _blocks(part["blocks"], words)
    yield from (Text(text) for text in part["words"])


def _master(part: Part, words: Words) -> str:
    lift = f"lifted with {_load(part['lift_N'], words)} when drowned, weighs {words.load(part['master_kg'])}"
    if part["floats_from_m"] is None:
        return f"{lift}: it sinks"
    net = f"{_load(part['net_N'], words)} ({words.force(part['net_N'])}) more than it weighs"
    return f"{lift}: {net}; worst with the rubber {_level(part, words)}"


def _level(part: Part, words: Words) -> str:
    level, standing = part["worst_level_m"], part["worst_standing_m"]
    text = f"{words.length(level)} up the box"
    if standing is None or abs(standing - level) < 1e-6:
        return text
    return f"{text} ({words.length(standing)} up the piece as it stands)"


def _weight(part: Part, words: Words) -> str:
    if part["weight_needed_kg"] <= 0:
        return "none: the bars only carry it"
    needed, each = words.load(part["weight_needed_kg"]), words.load(part["bars"]["weight_each_kg"])
    return f"{needed} on the bars, {each} on each; safety {part['safety_factor']:g}"


def _bars(bars: Part, words: Words) -> str:
    size = (
        f"{bars['count']} of {words.size(bars['section_m'])} (across, up), {bars['board']}, {bars['across']}"
    )
    down, up = (words.bend(bars[way]["bends_m"]) for way in ("hanging", "drowned"))
    held = f"within {words.length(bars['limit_m'])}" if bars["holds"] else "too weak"
    return f"{size}: bend {down} down before the rubber, {up} up when drowned: {held}"


def _screws(part: Part, words: Words) -> str:
    screws = part["screws"]
    through = "down through the bars" if part["bars"] else "up through the base board"
    face = "" if screws["count_face"] == screws["count"] else f", or {screws['count_face']} into their face"
    return (
        f"{screws['count']} of {screws['size']} {through} into the edge of the master's boards, "
        f"{screws['into']}{face}; each may bear {_load(screws['bears_N'], words)}"
    )


def _blocks(blocks: list[Part], words: Words) -> RenderableType:
    heads = ("space block", "weighs", "lifted by", "pulls its screws", "pushes across", "its screws, used")
    table = columns(heads)
    for block in blocks:
        table.add_row(
            f"{block['letter']}, {block['wall']}",
            words.load(block["mass_kg"]),
            _load(block["net_N"], words) if block["net_N"] > 0 else "sinks",
            _load(block["pull_N"], words),
            _load(block["push_N"], words),
            f"{block['screws']}, {words.share(block['screws_used'])}",
        )
    return table


def _load(newtons: float, words: Words) -> str:
    """A force [N] as the mass that weighs as much."""
    return words.load(newtons / NEWTONS)
