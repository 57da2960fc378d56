"""A heat run as it is read in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.cli.tables import columns, facts, headline, remark_lines
from pourwright.cli.words import Words

Part = Mapping[str, Any]
ROUND_OFF = 1e-12


def heat_lines(answer: Part, seconds: float) -> Iterator[RenderableType]:
    """Lay out a heat run: pours, probes, the hottest place, how it ended, how it was run.

    Parameters
    ----------
    answer : mapping
        The heat document as JSON.
    seconds : float
        How long it took [s].

    Yields
    ------
    RenderableType
    """
    words = Words.of(answer["job"])
    yield headline(answer["job"])
    yield Text()
    yield _pours(answer["pours"], words)
    if answer["probes"]:
        yield Text()
        yield _probes(answer["probes"], words)
    yield Text()
    yield facts(_facts(answer, words, seconds))
    yield from remark_lines("Notes", answer["notes"], "")


def _pours(pours: list[Part], words: Words) -> Table:
    table = columns(["pour", "to", "at", "poured at", "hottest", "after", "at x, y, z"])
    for pour in pours:
        hottest = pour["hottest"]
        table.add_row(
            str(pour["number"]),
            words.length(pour["to_m"]),
            words.after(pour["at_h"]),
            words.warmth(pour["temperature_degC"]),
            words.warmth(hottest["temperature_degC"]),
            words.after(hottest["time_h"]),
            words.place(hottest),
        )
    return table


def _probes(probes: list[Part], words: Words) -> Table:
    table = columns(["probe", "at x, y, z", "hottest", "after", "at the end", "cured"])
    for probe in probes:
        if not probe["time_h"]:
            table.add_row(probe["name"], words.place(probe), "never covered", "", "", "")
            continue
        table.add_row(
            probe["name"],
            words.place(probe),
            words.warmth(probe["peak_temperature_degC"]),
            words.after(probe["peak_time_h"]),
            words.warmth(probe["temperature_degC"][-1]),
            words.share(probe["conversion"][-1]),
        )
    return table


def _facts(answer: Part, words: Words, seconds: float) -> list[tuple[str, str]]:
    hottest, ending, grid = answer["hottest"], answer["ending"], answer["grid"]
    place = f"{words.warmth(hottest['temperature_degC'])} after {words.after(hottest['time_h'])}"
    nx, ny, nz = grid["cells"]
    size = f"{words.fine(grid['spacing_m'])} high and {words.fine(grid['across_m'])} wide at most"
    error = answer["energy_error"]
    balance = "to round-off" if error < ROUND_OFF else f"to {error:.0e}"
    return [
        ("Start", words.moment(answer["start"])),
        ("Hottest", f"{place}, at x, y, z = {words.place(hottest)}"),
        ("End", f"{ending['text']}; least-cured place {words.share(ending['least_cured'])} cured"),
        ("Pinned", ", ".join(answer["pinned"]) or "nothing"),
        ("Grid", f"{nx} x {ny} x {nz} cells, {size}"),
        ("Steps", f"{grid['steps']} in {seconds:.1f} s; the balance of energy closes {balance}"),
    ]
