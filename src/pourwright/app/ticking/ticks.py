"""Ticks against the list of today: which of them still hold, and how they are changed."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from pathlib import Path

from pourwright.app.ticking.kept import Tick, Ticked, change_ticks
from pourwright.app.ticking.listed import Listed
from pourwright.foundation.errors import NotThereError
from pourwright.foundation.files import canonical_json
from pourwright.jobs.cut_part import CutPart

SAME = 1e-5
"""Two sizes that differ by less are the same [m]."""


def holds(tick: Tick, part: CutPart) -> bool:
    """Say whether a part that was sawn is still the part of the list.

    Parameters
    ----------
    tick : Tick
        As it was sawn.
    part : CutPart
        As the list wants it.

    Returns
    -------
    bool
    """
    sizes = zip(_size(tick), (*part.sawn_m, part.thickness_m), strict=True)
    same = all(abs(one - other) < SAME for one, other in sizes)
    return same and (tick.board, tick.shape) == (part.board, _shape(part))


def done_of(listed: Listed, ticked: Ticked) -> set[str]:
    """Say which parts of the list are sawn.

    Parameters
    ----------
    listed : Listed
        The list.
    ticked : Ticked
        What was ticked.

    Returns
    -------
    set of str
        Marks.
    """
    return {
        mark
        for mark, tick in ticked.ticks.items()
        if mark in listed.parts and holds(tick, listed.parts[mark])
    }


def dropped_of(listed: Listed, ticked: Ticked) -> Iterator[str]:
    """Say which ticks no longer hold, since the list was made anew.

    Parameters
    ----------
    listed : Listed
        The list.
    ticked : Ticked
        What was ticked.

    Yields
    ------
    str
        A sentence each.
    """
    done = done_of(listed, ticked)
    for mark, tick in ticked.ticks.items():
        if mark in done:
            continue
        before = listed.words.size(_size(tick))
        part = listed.parts.get(mark)
        if part is None:
            yield f"{mark}, sawn as {before}: the list has no such part any more."
            continue
        now = listed.words.size((*part.sawn_m, part.thickness_m))
        if now == before:
            now = (
                "of another board" if tick.board != part.board else "of another outline, or larger by a hair"
            )
        yield f"{mark}, sawn as {before}: it is {now} now."


def tick_parts(folder: Path, listed: Listed, marks: Sequence[str], *, sawn: bool) -> None:
    """Tick parts as sawn, or no longer; doing it again changes nothing.

    Parameters
    ----------
    folder : Path
        Of the job.
    listed : Listed
        The list.
    marks : sequence of str
        Of the parts.
    sawn : bool
        Whether they are.

    Raises
    ------
    NotThereError
        For a part that the list does not have; none is ticked then.
    """
    unknown = [mark for mark in marks if mark not in listed.parts]
    if unknown:
        raise NotThereError(
            f"no part '{unknown[0]}' is in the list", where="marks", todo="take its name from the list"
        )

    def change(ticked: Ticked) -> Ticked:
        before, done = ticked.ticks, done_of(listed, ticked)
        others = {mark: tick for mark, tick in before.items() if mark not in marks}
        # what was sawn already stays as it was: perhaps from a sheet of an earlier list
        new = {mark: before[mark] if mark in done else _tick(listed, mark) for mark in marks if sawn}
        return Ticked(id=ticked.id, ticks=others | new)

    change_ticks(folder, listed.variant, change)


def forget_dropped(folder: Path, listed: Listed) -> None:
    """Forget ticks that no longer hold, once the maker has read which."""

    def change(ticked: Ticked) -> Ticked:
        done = done_of(listed, ticked)
        return Ticked(id=ticked.id, ticks={mark: t for mark, t in ticked.ticks.items() if mark in done})

    change_ticks(folder, listed.variant, change)


def begin_again(folder: Path, listed: Listed) -> None:
    """Untick everything, to saw all of it once more; offcuts in the book stay there."""
    change_ticks(folder, listed.variant, lambda _: Ticked())


def _tick(listed: Listed, mark: str) -> Tick:
    part = listed.parts[mark]
    length, width = part.sawn_m
    return Tick(
        length_m=length,
        width_m=width,
        thickness_m=part.thickness_m,
        board=part.board,
        shape=_shape(part),
        wood=listed.wood_of[mark].print,
    )


def _size(tick: Tick) -> tuple[float, float, float]:
    return tick.length_m, tick.width_m, tick.thickness_m


def _shape(part: CutPart) -> str:
    """Fingerprint of an outline, to a hundredth of a millimetre."""
    if not part.outlines_m:
        return ""
    lines = [[[round(1e5 * value) for value in point] for point in line] for line in part.outlines_m]
    return hashlib.sha256(canonical_json(lines)).hexdigest()[:16]
