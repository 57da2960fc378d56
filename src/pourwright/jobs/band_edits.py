"""The bands of a job file written anew: those that stay as they are keep their comments."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping, Sequence
from copy import deepcopy
from typing import Any

from pourwright.foundation.errors import UserError
from pourwright.jobs.edits import (
    at,
    block_end,
    checked,
    dotted,
    line_end,
    literal,
    place_of_table,
    with_value,
)
from pourwright.jobs.keypaths import KeyPath
from pourwright.jobs.lines import Layout, layout_of
from pourwright.jobs.sections import Band

Raw = Mapping[str, Any]
KEYS = tuple(Band.model_fields)


def with_bands(text: str, bands: Sequence[Raw], root: KeyPath = ()) -> str:
    r"""Replace all bands.

    Parameters
    ----------
    text : str
        Valid TOML whose lines end in ``\\n`` alone.
    bands : sequence of Mapping
        As TOML reads them, from the mold's floor up.
    root : tuple
        ``("variant", 0)`` for the bands of a variant.

    Returns
    -------
    str
        The same text but for its bands.

    Raises
    ------
    UserError
        Where the bands stand in a way that cannot be changed in place.
    """
    key = (*root, "band")
    layout, raw = layout_of(text), tomllib.loads(text)
    old = at(raw, key) or []
    if key in layout.assignments:
        place = layout.assignments[key]
        new = text[: place.value] + _array(bands) + text[place.end :]
        return checked(new, _wanted(raw, key, bands, keep=True), "band")
    pieces = _pieces(text, layout, key, len(old))
    written = list(_written(old, bands, [piece for _, piece in pieces], key))
    start, stop = _region(text, layout, root, pieces)
    return checked(_joined(text, start, stop, written), _wanted(raw, key, bands), "band")


def _wanted(raw: dict[str, Any], key: KeyPath, bands: Sequence[Raw], *, keep: bool = False) -> dict[str, Any]:
    wanted = deepcopy(raw)
    owner = at(wanted, key[:-1])
    owner.pop("band", None)
    if bands or keep:
        owner["band"] = [dict(band) for band in bands]
    return wanted


def _array(bands: Sequence[Raw]) -> str:
    return "[\n" + "".join(f"  {literal(band)},\n" for band in bands) + "]" if bands else "[]"


def _pieces(text: str, layout: Layout, key: KeyPath, count: int) -> list[tuple[int, str]]:
    """Text of each band with the comments above it, and where it begins."""
    own = [n for n, block in enumerate(layout.blocks) if block.path[: len(key)] == key]
    if own and own != list(range(own[0], own[-1] + 1)):
        raise UserError(
            "the bands stand apart in the file", where="band", todo="put them one after another in its text"
        )
    pieces: list[tuple[int, str]] = []
    for i in range(count):
        numbers = [n for n in own if layout.blocks[n].path[: len(key) + 1] == (*key, i)]
        start = _lead(text, layout.blocks[numbers[0]].start) if not pieces else _end(pieces[-1])
        pieces.append((start, text[start : block_end(text, layout, numbers[-1])]))
    return pieces


def _end(piece: tuple[int, str]) -> int:
    return piece[0] + len(piece[1])


def _lead(text: str, start: int) -> int:
    """Where the comment lines right above a heading begin."""
    begin = text.rfind("\n", 0, start) + 1
    while begin:
        above = text.rfind("\n", 0, begin - 1) + 1
        if not text[above : begin - 1].lstrip().startswith("#"):
            break
        begin = above
    return begin


def _region(text: str, layout: Layout, root: KeyPath, pieces: list[tuple[int, str]]) -> tuple[int, int]:
    if pieces:
        return pieces[0][0], _end(pieces[-1])
    if not root:
        place = place_of_table(text, layout, "band")
    else:
        own = [n for n, block in enumerate(layout.blocks) if block.path[: len(root)] == root]
        place = max(block_end(text, layout, n) for n in own)
    return place, place


def _written(old: Sequence[Raw], bands: Sequence[Raw], pieces: Sequence[str], key: KeyPath) -> Iterator[str]:
    kept = _matched(old, bands)
    spare = [i for i in range(len(old)) if i not in kept.values()]
    for number, band in enumerate(bands):
        if number in kept:
            yield pieces[kept[number]]
            continue
        like = max(spare, key=lambda i: _alike(old[i], band), default=None)
        if like is None or not _alike(old[like], band):
            yield _fresh(band, key)
        else:
            spare.remove(like)
            yield _changed(pieces[like], old[like], band, key)


def _alike(old: Raw, band: Raw) -> int:
    """How many lines two bands have in common."""
    return sum(old.get(name) == value for name, value in band.items())


def _matched(old: Sequence[Raw], bands: Sequence[Raw]) -> dict[int, int]:
    """Bands that stay as they are: number of the old one by number of the new one."""
    kept = {i: i for i in range(min(len(old), len(bands))) if old[i] == bands[i]}
    for number, band in enumerate(bands):
        free = [i for i in range(len(old)) if i not in kept.values() and old[i] == band]
        if number not in kept and free:
            kept[number] = free[0]
    return kept


def _changed(piece: str, old: Raw, band: Raw, key: KeyPath) -> str:
    names = tuple(step for step in key if isinstance(step, str))
    try:
        for name in dict.fromkeys((*KEYS, *old, *band)):
            if old.get(name) != band.get(name):
                piece = with_value(piece, (*names, 0, name), band.get(name))
    except UserError:
        return _fresh(band, key)
    return piece.rstrip("\n")


def _fresh(band: Raw, key: KeyPath) -> str:
    names = [step for step in key if isinstance(step, str)]
    order = sorted(band, key=lambda name: KEYS.index(name) if name in KEYS else len(KEYS))
    lines = [f"{dotted((name,))} = {literal(band[name])}" for name in order]
    return "\n".join((f"[[{dotted(names)}]]", *lines))


def _joined(text: str, start: int, stop: int, written: list[str]) -> str:
    if not written:
        after = line_end(text, stop)
        head, tail = text[:start].rstrip("\n"), text[after + 1 :]
        return f"{head}\n{tail}" if head else tail.lstrip("\n")
    whole = ""
    for piece in written:
        bare = piece.lstrip("\n")
        gap = piece[: len(piece) - len(bare)] or "\n\n"
        whole += bare if not whole else gap + bare
    head = "\n\n" if start == stop and start else ""
    return text[:start] + head + whole + (text[stop:] or "\n")
