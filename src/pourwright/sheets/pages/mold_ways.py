"""The first page of a mold: every way it can be made, and the one to take."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.jobs.mold_ways import WayMoney, WayOfMold, Ways, WayStep
from pourwright.sheets.pages.common import Page, fact, plural, table
from pourwright.sheets.wording import Wording

LINES = ("none", "one, down one side", "all round", "two, down two sides")
HELD = {"bed": "laid in clay", "hung": "hung, open face up", "screwed": "screwed down, open face down"}


def ways_pages(sheet: MoldSheet, words: Wording) -> Iterator[Page]:
    """Fill the page.

    Parameters
    ----------
    sheet : MoldSheet
        All that is told.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
        For the template.
    """
    ways = sheet.ways
    if ways is None:
        return
    chosen = next((way for way in ways.ways if way.recommended), None)
    yield {
        "title": "How it is made",
        "lead": " ".join(text for text in (f"Take {ways.why}" if chosen else ways.why, ways.change) if text),
        "facts": [] if chosen is None else _facts(chosen, ways.currency, words),
        "blocks": [
            {"drawing": "drawings/ways.svg", "alt": "The ways of making the mold, cut open"},
            {"table": _amounts(ways, words), "size": 8.6},
            {"table": _results(ways), "size": 8.6},
            *({"small": text} for text in _reasons(ways)),
            {"small": ways.rule},
            *_work(chosen, words),
        ],
    }


def _facts(way: WayOfMold, currency: str | None, words: Wording) -> list[dict[str, str]]:
    mass, pails = words.mass(way.mixed_kg), plural(way.batches, "pail")
    told = [
        fact("rubber", words.volume(way.rubber_volume_m3), f"mix {mass} in {pails}"),
        fact("work", f"{way.work_h:.0f} h", f"{way.work_low_h:.0f} to {way.work_high_h:.0f} h, {_days(way)}"),
        fact("parting lines", LINES[way.parting_lines]),
        fact("master", HELD[way.held], f"floats: {way.floats}"),
    ]
    if way.money.per_cast is not None:
        told.append(fact("mold", f"{way.money.mold:.0f} {currency}", f"{way.money.per_cast:.0f} a cast"))
    return told


def _days(way: WayOfMold) -> str:
    return plural(ceil(way.elapsed_h / 24), "day")


def _amounts(ways: Ways, words: Wording) -> Page:
    heads = ["way", "master", "rubber", "mix", "pails", "board", "work", "days"]
    rows = [
        [
            _name(number, way),
            HELD[way.held],
            words.volume(way.rubber_volume_m3),
            words.mass(way.mixed_kg),
            str(way.batches),
            words.area(way.board_m2),
            f"{way.work_h:.0f} h",
            str(ceil(way.elapsed_h / 24)),
        ]
        for number, way in enumerate(ways.ways, 1)
    ]
    return table(heads, rows, "llrrrrrr")


def _results(ways: Ways) -> Page:
    money = ways.currency or "money"
    heads = ["way", "lines", "floats", "casts", f"rubber, {money}", "wood", "shell", "work", "mold", "a cast"]
    rows = [
        [
            _name(number, way),
            LINES[way.parting_lines] if way.possible else "cannot be",
            way.floats,
            f"{way.casts_low:.0f} to {way.casts_high:.0f}",
            *_money(way.money),
        ]
        for number, way in enumerate(ways.ways, 1)
    ]
    return table(heads, rows, "lllrrrrrrr")


def _name(number: int, way: WayOfMold) -> str:
    return f"{number} {way.words}{': take it' if way.recommended else ' (the job)' if way.in_job else ''}"


def _money(money: WayMoney) -> list[str]:
    amounts = (money.rubber, money.wood, money.shell, money.work, money.mold, money.per_cast)
    return ["–" if amount is None else f"{amount:.0f}" for amount in amounts]


def _reasons(ways: Ways) -> Iterator[str]:
    for number, way in enumerate(ways.ways, 1):
        for reason in way.no:
            yield f"{number} cannot be: {reason}."
    for number, way in enumerate(ways.ways, 1):
        if way.possible:
            for reason in way.against:
                yield f"{number}: {reason}."


def _work(way: WayOfMold | None, words: Wording) -> Iterator[Page]:
    if way is None:
        return
    steps = "; ".join(_step(step, words) for step in way.steps)
    yield {
        "small": f"Work on {way.words}: {steps}. Sealing and releasing the master is the same for every way."
    }


def _step(step: WayStep, words: Wording) -> str:
    wait = f", then {words.duration(step.wait_h)} of waiting" if step.wait_h else ""
    return f"{step.name} {words.duration(step.work_h)}{wait}"
