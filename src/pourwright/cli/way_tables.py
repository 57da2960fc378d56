"""Ways up and the parting of a mold, as the maker reads them in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.text import Text

from pourwright.cli.tables import columns
from pourwright.cli.words import Words

Part = Mapping[str, Any]
LEAST = 0.005
"""Share of the surface that locks no mold: the columns tell no less."""


def way_lines(ways: Part, words: Words) -> Iterator[RenderableType]:
    """Lay out the best ways up with their reasons, and where a mold of two parts opens.

    Parameters
    ----------
    ways : mapping
        Of the shape's answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text("Which way up", style="bold")
    table = columns(["", "up", "deep", "open face", "air caught", "under rubber", "neck stretched", "master"])
    for number, way in enumerate(ways["best"], 1):
        table.add_row(str(number), *_row(way, words))
    chosen = ways.get("chosen")
    if chosen is not None:
        table.add_row("job", *_row(chosen, words))
    yield table
    for number, way in enumerate(ways["best"], 1):
        yield Text(f"{number}  {up_text(way['up'])}, {way['words']}: {way['reason']}")
        if way["alike"]:
            yield Text(f"   alike: {', '.join(up_text(up) for up in way['alike'])}")
        if way["pull_leans_deg"]:
            pull = f"leaning {way['pull_leans_deg']:.0f} degrees toward {up_text(way['pull'], 2)}"
            yield Text(f"   pull it out {pull}: {words.share(way['pull_under_rubber_share'])} under rubber")
        for each in way["against"]:
            yield Text(f"   against it: {each}", style="dim")
        for each in way["caught"]:
            yield Text(f"   {_caught(each, words)}", style="yellow")
    best = [(way["up"], way["hold"]) for way in ways["best"]]
    if chosen is not None and (chosen["up"], chosen["hold"]) not in best:
        yield Text(f"job  {up_text(chosen['up'])}, {chosen['words']}: {chosen['reason']}")
    if ways["hint"]:
        yield Text(ways["hint"])
    yield Text(_parting(ways["parting"], words))


def up_text(up: str | list[float], digits: int = 6) -> str:
    """A direction as the job file writes it."""
    if isinstance(up, str):
        return up
    return "[" + ", ".join(f"{round(value, digits) + 0.0:g}" for value in up) + "]"


def _row(way: Part, words: Words) -> list[str]:
    caught = way["caught_m3"] + way["caught_under_master_m3"]
    return [
        up_text(way["up"]),
        words.length(way["head_m"]),
        f"{words.area(way['open_face_m2'])}, {words.share(way['open_share'])}",
        words.volume(caught) if caught else "none",
        words.share(way["under_rubber_share"]),
        words.share(way["stretch_share"]) if way["open_face_m2"] else "",
        way["hold"],
    ]


def _caught(each: Part, words: Words) -> str:
    where = words.length(each["height_m"]), words.length(each["height_standing_m"])
    height = f"{where[0]} up" if where[0] == where[1] else f"{where[0]} up ({where[1]} as it stands)"
    liquid = "by the casting" if each["liquid"] == "casting" else "under the master"
    place = words.place(each)
    return (
        f"{words.volume(each['volume_m3'])} caught {liquid}, {height}, at {place} in the file: {each['todo']}"
    )


def _parting(parting: Part, words: Words) -> str:
    share, worst = words.share(parting["share"]), words.share(parting["most_share"])
    along = f"opened both ways along {up_text(parting['along']).lstrip('+-')}"
    if parting["most_share"] < LEAST:
        return "A mold of two parts locks nowhere, whichever way it opens."
    if parting["share"] < LEAST:
        return (
            f"A mold of two parts, {along}, locks nowhere; other ways lock on up to {worst} of the surface."
        )
    return f"A mold of two parts locks on {share} of the surface at best, {along}; at worst on {worst}."
