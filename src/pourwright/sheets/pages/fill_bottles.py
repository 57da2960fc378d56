"""The pages of bottles: what to collect, crush or buy, what to sort out, trays to tick while they dry."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.jobs.fill_bottles import ColourBottles, CrushedGlass, Drying, Sizes
from pourwright.jobs.fill_sheet import FillSheet
from pourwright.sheets.pages.common import Page, fact, table
from pourwright.sheets.wording import Wording

GRADES = ["colour", "grade", "sieved between", "wanted", "yield", "known by", "bottles", "left over"]
WORK = [
    "colour",
    "bottles",
    "there",
    "collect",
    "crush",
    "labels",
    "crushing",
    "sieving",
    "washing",
    "trays",
    "all",
]
TRAYS = ["", "tray", "colour", "grade", "dry, about", "tray empty", "wet", "1", "2", "3", "4", "dry below"]
BOUGHT = "bought graded"


def bottles_pages(sheet: FillSheet, words: Wording) -> Iterator[Page]:
    """Fill the pages.

    Parameters
    ----------
    sheet : FillSheet
        With its bottles, or none.
    words : Wording
        The maker's units.

    Yields
    ------
    dict
    """
    part = sheet.bottles
    if part is None:
        return
    yield {
        "title": "From bottles to crushed glass",
        "lead": part.recommendation,
        "facts": list(_facts(part, words)),
        "blocks": [
            {"table": table(GRADES, _grades(part, words), "lllrrlrr"), "size": 9},
            {"sub": "Hours of one person"},
            {"table": table(WORK, _work(part, words), "lrrrrrrrrrr"), "size": 8.5},
            *([{"small": f"Left over: {part.left}."}] if part.left else []),
            *_again(part),
            *_kinds(part, words),
            *([] if part.sizes is None else _sizes(part.sizes, words)),
        ],
    }
    yield {
        "title": "Sort out, crush, wash",
        "lead": "One colour at a time.",
        "blocks": [
            {"table": table(["", "step"], [["", step] for step in part.steps], "ll"), "ticks": True},
            {"sub": "Taken off or sorted out"},
            {
                "table": table(
                    ["", "what", "do", "why"],
                    [["", each.what, each.do, each.why] for each in part.sorting],
                    "llll",
                ),
                "ticks": True,
                "size": 9,
            },
        ],
    }
    yield _drying(part.drying, words)


def _facts(part: CrushedGlass, words: Wording) -> Iterator[dict[str, str]]:
    crushed = [each for each in part.colours if not each.bought]
    if not crushed:
        return
    there = sum(each.have for each in crushed)
    yield fact(
        "bottles", str(sum(each.bottles for each in crushed)), f"{there} are there" if there else "to collect"
    )
    yield fact(
        "work", words.duration(sum(each.total_h for each in crushed)), "one person, the wait not in it"
    )
    bought = [each.bought_price for each in crushed if each.bought_price is not None]
    if bought:
        yield fact("bought graded", words.money(sum(bought)))
    own = [each.work_price for each in crushed if each.work_price is not None]
    if own:
        yield fact("the work costs", words.money(sum(own)))


def _grades(part: CrushedGlass, words: Wording) -> Iterator[list[str]]:
    known = {each.grade: each for each in part.yields}
    for colour in part.colours:
        for number, grade in enumerate(colour.grades):
            if colour.bought and not grade.wanted_kg:
                continue
            row = known[grade.grade]
            wanted = words.mass(grade.wanted_kg) if grade.wanted_kg else ""
            rest = ["", BOUGHT, "", ""] if colour.bought else [
                words.share(grade.share),
                row.by,
                str(grade.bottles) if grade.wanted_kg else "",
                words.mass(grade.left_kg),
            ]  # fmt: skip
            name = "" if number and not colour.bought else colour.colour
            yield [name, grade.grade, words.sieve(row.sieve_from_m, row.sieve_to_m), wanted, *rest]


def _work(part: CrushedGlass, words: Wording) -> Iterator[list[str]]:
    for each in part.colours:
        if not each.bought:
            hours = (
                each.labels_h,
                each.crushing_h,
                each.sieving_h,
                each.washing_h,
                each.drying_h,
                each.total_h,
            )
            counts = [str(count) for count in (each.bottles, each.have, each.collect)]
            yield [each.colour, *counts, words.mass(each.crushed_kg), *map(words.duration, hours)]


def _again(part: CrushedGlass) -> Iterator[Page]:
    fewer = [each for each in part.colours if not each.bought and each.again < each.bottles]
    if fewer:
        told = ", ".join(f"{each.again} of {each.colour}" for each in fewer)
        yield {
            "small": f"Fewer bottles do where all that is left coarser is crushed again: {told} (if it "
            "breaks as bottles do)."
        }


def _kinds(part: CrushedGlass, words: Wording) -> Iterator[Page]:
    crushed = [each for each in part.colours if not each.bought]
    if not crushed:
        return
    yield {"sub": "If you collect one kind alone"}
    rows = [
        [each.colour, kind.name, words.mass(kind.mass_kg), str(kind.alone)]
        for each in crushed
        for kind in each.kinds
    ]
    yield {"table": table(["colour", "bottle", "one weighs", "bottles"], rows, "llrr"), "size": 9}
    yield {"small": _reckoned_with(crushed, words)}


def _reckoned_with(crushed: list[ColourBottles], words: Wording) -> str:
    told = ", ".join(f"{each.colour} {words.mass(each.bottle_kg)}" for each in crushed)
    invented = any(kind.invented for each in crushed for kind in each.kinds)
    own = (
        " The weights of these kinds are invented: weigh yours and write [[bottles.kind]]."
        if invented
        else ""
    )
    return f"Reckoned with bottles of {told}.{own}"


def _sizes(sizes: Sizes, words: Wording) -> Iterator[Page]:
    yield {"sub": "What your sieves say"}
    heads = ["sieve", "opening", "stayed", "passed", "by the law"]
    rows = [
        [
            each.name,
            f"{1000 * each.sieve_m:.3g} mm",
            _tenth(each.stayed),
            _tenth(each.passed),
            _tenth(each.law),
        ]
        for each in sizes.sieves
    ]
    yield {"table": table(heads, rows, "lrrrr"), "size": 9}
    exact = "Two sieves fit the law exactly; a third one would test it." if len(rows) == 2 else (
        f"The law misses a weighed sieve by {_tenth(sizes.residual)} at most."
    )  # fmt: skip
    yield {
        "small": f"Rosin and Rammler: 63 % of the glass is finer than {words.gap(sizes.size_m)}, spread "
        f"{sizes.spread:.2f}. {exact} {_tenth(abs(sizes.off))} {'missing' if sizes.off >= 0 else 'too much'} "
        "between the weighings."
    }


def _tenth(share: float) -> str:
    return f"{100 * share:.1f} %"


def _drying(drying: Drying, words: Wording) -> Page:
    every = words.duration(drying.weigh_every_h)
    how = f"{drying.dried}{', your own time' if drying.own else ''}"
    rows = [
        [
            "", str(tray.number), tray.colour, tray.grade, words.mass(tray.glass_kg), *[""] * 6,
            f"{1000 * tray.constant_kg:.1f} g",
        ]
        for tray in drying.trays
    ]  # fmt: skip
    ways = [
        [way.name, words.duration(way.hours), f"{words.duration(way.low_h)} to {words.duration(way.high_h)}",
         way.conditions, way.kind]
        for way in drying.ways
    ]  # fmt: skip
    wet = [[each.grade, _tenth(each.water), _tenth(each.of_resin)] for each in drying.wet]
    return {
        "title": "Drying, tray by tray",
        "lead": f"About {words.duration(drying.waits_h)} ({how}); weigh again each {every}, write it down. "
        "Dry is a tray that lost less than the last column since the weighing before, "
        f"{_tenth(drying.constant)} (common practice).",
        "blocks": [
            {"table": table(TRAYS, rows, "llllrlllllll"[:12]), "ticks": True, "size": 8.5},
            {"sub": "How long"},
            {"table": table(["way", "about", "between", "how", "kind"], ways, "lrlll"), "size": 9},
            {"sub": "What water does"},
            {"text": drying.does},
            {
                "table": table(["grade", "water on it, of its weight", "of the resin around it"], wet, "lrr"),
                "size": 9,
            },
            {
                "small": f"A film of {words.gap(drying.film_m)} ({drying.film_kind}) on balls of the "
                "grade's size; crushed grains have more surface."
            },
        ],
    }
