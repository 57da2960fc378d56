"""The size ledger as the maker reads it in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.cli.words import Words

Part = Mapping[str, Any]
STEPS = (
    ("sanded off", "sanded_m"),
    ("casting shrinks", "casting_m"),
    ("warm rubber comes in", "warm_rubber_m"),
    ("rubber shrinks", "rubber_m"),
)


def ledger_lines(sizes: Part, words: Words) -> Iterator[RenderableType]:
    """Lay out the ledger: a column for each direction, then the faces that are sanded.

    Parameters
    ----------
    sizes : mapping
        The ledger as JSON.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    wanted = sizes["shape_is"] == "piece"
    yield Text()
    way = "From the piece wanted to the master" if wanted else "From the master to the piece"
    yield Text(way, style="bold")
    yield _table(sizes["directions"], words, wanted=wanted)
    yield from _faces(sizes["faces"], words)
    yield Text(f"Rests on: {'; '.join(number_words(number) for number in sizes['numbers'])}.", style="dim")


def size_rows(sizes: Part | None, words: Words) -> Iterator[tuple[str, str]]:
    """Say master and piece in one line each, where the job asks for the master.

    Parameters
    ----------
    sizes : mapping or None
        The ledger as JSON.
    words : Words
        The maker's units.

    Yields
    ------
    tuple of str
        Name and what holds for it.
    """
    if sizes is None or not sizes["cut"]:
        return
    yield "Master", f"cut it {_size(sizes, 'master_m', words)}"
    yield "Sanded", f"the piece is {_size(sizes, 'piece_m', words)}, cast {_size(sizes, 'cast_m', words)}"
    if sizes.get("run"):
        yield "Gels", sizes["run"]["text"]


def _size(sizes: Part, key: str, words: Words) -> str:
    return " x ".join(words.cut(one[key]) for one in sizes["directions"])


def number_words(number: Part) -> str:
    """A number of the ledger with its range."""
    return f"{number['words']} {number['told']}"


def _table(directions: list[Part], words: Words, *, wanted: bool) -> Table:
    table = Table(box=None, pad_edge=False, header_style="dim")
    table.add_column("", style="dim", no_wrap=True)
    for one in directions:
        table.add_column(one["words"], no_wrap=True, justify="right")
    for name, key, style in _rows(directions, wanted=wanted):
        table.add_row(name, *(words.cut(one[key]) for one in directions), style=style)
    low, high = ("master_low_m", "master_high_m") if wanted else ("piece_low_m", "piece_high_m")
    spans = [f"{words.cut(one[low]).partition(' ')[0]} to {words.cut(one[high])}" for one in directions]
    table.add_row("between", *spans)
    return table


def _rows(directions: list[Part], *, wanted: bool) -> Iterator[tuple[str, str, str]]:
    """Name, key and style of each line; a line is left out where nothing is sanded."""
    steps = [step for step in STEPS if step[1] != "sanded_m" or any(one["sanded_m"] for one in directions)]
    piece = "piece, sanded" if len(steps) == len(STEPS) else "piece"
    if wanted:
        yield f"{piece}, as wanted", "piece_m", ""
        yield from ((f"+ {name}", key, "") for name, key in steps)
        yield "= master", "master_m", "bold"
        return
    yield "master", "master_m", ""
    yield from ((f"- {name}", key, "") for name, key in reversed(steps))
    yield f"= {piece}", "piece_m", "bold"


def _faces(faces: list[Part], words: Words) -> Iterator[RenderableType]:
    for face in faces:
        if not face["sanded_m"]:
            continue
        off = words.cut(face["sanded_m"])
        told = face["text"] or f"sanding {off} off the {face['words']}: no glass there"
        out = f"there the master stands {words.cut(face['stands_out_m'])} out over the piece"
        yield Text(f"- {told[:1].upper()}{told[1:]}; {out}.", style="yellow" if face["through"] else "")
