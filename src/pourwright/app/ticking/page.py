"""What the page asks of the list of what to saw, one function each."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

from pourwright.app.shelf.places import job_places
from pourwright.app.ticking import shown
from pourwright.app.ticking.fitting import parts_that_fit
from pourwright.app.ticking.listed import CUT, listed_of, the_list
from pourwright.app.ticking.offcuts import put_on_stock, take_off_stock
from pourwright.app.ticking.state import offcut_that_is_there, state_of
from pourwright.app.ticking.ticks import begin_again, forget_dropped, tick_parts
from pourwright.app.working.works import Works
from pourwright.foundation.errors import UserError
from pourwright.jobs import load_job

State = dict[str, Any]


def to_saw(works: Works, file: Path, variant: str | None = None) -> dict[str, Any] | None:
    """Tell what to saw of a job, and how far it is.

    Parameters
    ----------
    works : Works
        Of this server.
    file : Path
        The job file.
    variant : str, optional
        Else the first.

    Returns
    -------
    dict or None
        ``list`` as from `shown_list` and ``state`` as from `state_of`; None where it was not worked out yet.
    """
    listed = listed_of(works, file, variant)
    if listed is None:
        return None
    return {"list": shown.shown_list(listed), "state": state_of(file.parent, listed)}


def lists_to_saw(works: Works, shop: Path) -> list[dict[str, str]]:
    """List the jobs of a shop whose list of what to saw was worked out.

    Parameters
    ----------
    works : Works
        Of this server.
    shop : Path
        Its folder.

    Returns
    -------
    list of dict
        ``job``, ``variant`` and ``title``; a job whose file has an error is left out.
    """
    found = []
    for place in job_places(shop):
        listed = works.answers(place.folder).get(CUT, {})
        with suppress(UserError):
            names = {one.variant_name: one.title for one in load_job(place.file).variants()} if listed else {}
            found += [
                {"job": place.name, "variant": name, "title": title}
                for name, title in names.items()
                if name in listed
            ]
    return found


def sawn_state(works: Works, file: Path, variant: str | None = None) -> State:
    """Say how far the sawing is, as `state_of`."""
    return state_of(file.parent, the_list(works, file, variant))


def tick_sawn(
    works: Works, file: Path, variant: str | None, seen: str, marks: Sequence[str], *, sawn: bool
) -> State:
    """Tick parts of the list that is looked at; how far it is then."""
    listed = the_list(works, file, variant, seen)
    tick_parts(file.parent, listed, marks, sawn=sawn)
    return state_of(file.parent, listed)


def ticks_understood(works: Works, file: Path, variant: str | None, seen: str) -> State:
    """Forget ticks that no longer hold, as their maker has read it; how far it is then."""
    listed = the_list(works, file, variant, seen)
    forget_dropped(file.parent, listed)
    return state_of(file.parent, listed)


def saw_again(works: Works, file: Path, variant: str | None, seen: str) -> State:
    """Untick everything, to saw it once more; how far it is then."""
    listed = the_list(works, file, variant, seen)
    begin_again(file.parent, listed)
    return state_of(file.parent, listed)


def book_offcut(
    works: Works, file: Path, variant: str | None, seen: str, sheet: str, piece: int, source: int | None
) -> State:
    """Put what is left of a sheet on stock, once; how far it is then."""
    listed = the_list(works, file, variant, seen)
    offcut = offcut_that_is_there(file.parent, listed, sheet, piece)
    put_on_stock(file.parent, listed, offcut, source)
    return state_of(file.parent, listed)


def unbook_offcut(works: Works, file: Path, variant: str | None, seen: str, sheet: str, piece: int) -> State:
    """Take what is left of a sheet off the stock again; how far it is then."""
    listed = the_list(works, file, variant, seen)
    take_off_stock(file.parent, offcut_that_is_there(file.parent, listed, sheet, piece))
    return state_of(file.parent, listed)


def offcuts_that_fit(works: Works, file: Path, variant: str | None = None) -> list[dict[str, Any]]:
    """Say which parts that are not sawn yet fit on the offcuts of the book."""
    return parts_that_fit(file.parent, the_list(works, file, variant))


def saw_drawing(works: Works, file: Path, variant: str | None, sheet: int | None) -> str:
    """Draw a sheet by its number, or all bars where it is None."""
    listed = the_list(works, file, variant)
    return shown.bars_drawing(listed) if sheet is None else shown.sheet_drawing(listed, sheet)


def saw_paper(works: Works, file: Path, variant: str | None = None) -> bytes:
    """Give the list on paper, a PDF file."""
    return shown.paper_of(works, file, the_list(works, file, variant))
