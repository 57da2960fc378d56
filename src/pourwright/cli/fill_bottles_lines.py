"""From bottles to crushed glass, as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.cli.tables import columns, facts
from pourwright.cli.words import Words

Part = Mapping[str, Any]


def bottles_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Tell which bottles to collect and what is done with them.

    Parameters
    ----------
    part : mapping
        The part `bottles` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text("From bottles to crushed glass", style="bold")
    yield _grades(part, words)
    yield _work(part, words)
    yield facts(list(_facts(part, words)))


def _grades(part: Part, words: Words) -> Table:
    by = {each["grade"]: each["by"] for each in part["yields"]}
    table = columns(["colour", "grade", "wanted", "yield", "known by", "bottles", "left over"])
    for colour in part["colours"]:
        if colour["bought"]:
            table.add_row(
                colour["colour"], "all", words.mass(colour["wanted_kg"]), "", "", "bought graded", ""
            )
            continue
        for number, grade in enumerate(colour["grades"]):
            table.add_row(
                "" if number else colour["colour"],
                grade["grade"],
                words.mass(grade["wanted_kg"]) if grade["wanted_kg"] else "",
                words.share(grade["share"]),
                by[grade["grade"]],
                str(grade["bottles"]) if grade["wanted_kg"] else "",
                words.mass(grade["left_kg"]),
            )
    return table


def _work(part: Part, words: Words) -> Table:
    table = columns(
        ["colour", "bottles", "there", "crush", "labels", "crushing", "sieving", "washing", "trays", "all"]
    )
    for colour in part["colours"]:
        if not colour["bought"]:
            table.add_row(
                colour["colour"],
                str(colour["bottles"]),
                str(colour["have"]),
                words.mass(colour["crushed_kg"]),
                *(
                    words.duration(colour[f"{name}_h"])
                    for name in ("labels", "crushing", "sieving", "washing", "drying", "total")
                ),
            )
    return table


def _facts(part: Part, words: Words) -> Iterator[tuple[str, str]]:
    yield "Do", part["recommendation"]
    if part["left"]:
        yield "Left over", part["left"]
    fewer = [each for each in part["colours"] if not each["bought"] and each["again"] < each["bottles"]]
    if fewer:
        told = ", ".join(f"{each['again']} {each['colour']}" for each in fewer)
        yield "Crush it again", f"bottles that do if what is left too coarse is crushed again: {told}"
    if part["sizes"]:
        yield "Sieves", _fit(part["sizes"], words)
    yield from _kinds(part)
    yield "Sort out", "; ".join(each["what"] for each in part["sorting"] if "sort out" in each["do"])
    yield from _drying(part["drying"], words)


def _fit(sizes: Part, words: Words) -> str:
    finer = f"63 % of the glass is finer than {words.fine(sizes['size_m'])}, spread {sizes['spread']:.2f}"
    if len(sizes["sieves"]) == 2:
        return f"{finer}; two sieves fit the law exactly: a third one would test it"
    return f"{finer}; the law misses a weighed sieve by {100 * sizes['residual']:.1f} % at most"


def _kinds(part: Part) -> Iterator[tuple[str, str]]:
    for colour in part["colours"]:
        if colour["bought"]:
            continue
        told = [f"{each['alone']} x {each['name']}" for each in colour["kinds"]]
        invented = (
            " (weights invented: weigh yours)" if any(each["invented"] for each in colour["kinds"]) else ""
        )
        yield f"One kind, {colour['colour']}", f"{'; '.join(told)}{invented}"


def _drying(drying: Part, words: Words) -> Iterator[tuple[str, str]]:
    kind = "your own" if drying["own"] else "common practice"
    yield (
        "Drying",
        (
            f"{len(drying['trays'])} trays, {drying['dried']}, "
            f"about {words.duration(drying['waits_h'])} ({kind}); "
            f"then weigh again after {words.duration(drying['weigh_every_h'])} until a tray loses less than "
            f"{100 * drying['constant']:.1f} %"
        ),
    )
    water = ", ".join(
        f"{100 * wet['water']:.1f} % on {wet['grade']} ({100 * wet['of_resin']:.0f} % of the resin around it)"
        for wet in drying["wet"]
    )
    yield "Wet glass", f"a film of {words.cut(drying['film_m'])} holds {water}. {drying['does']}"
