"""What the page asks of the list of what to saw."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pourwright.app.shelf.places import job_places
from pourwright.app.ticking import shown
from pourwright.app.ticking.fitting import parts_that_fit
from pourwright.app.ticking.listed import CUT, Listed, listed_of, the_list
from pourwright.app.ticking.offcuts import put_on_stock, take_off_stock
from pourwright.app.ticking.state import offcut_that_is_there, state_of
from pourwright.app.ticking.ticks import begin_again, forget_dropped, tick_parts
from pourwright.app.working.works import Works
from pourwright.foundation.errors import UserError
from pourwright.jobs import load_job

State = dict[str, Any]


@dataclass(frozen=True)
class Sawing:
    """The sawing of one variant of a job. What changes it names the list that is looked at.

    Parameters
    ----------
    works : Works
        Of this server.
    file : Path
        The job file.
    variant : str, optional
        Else the first.
    """

    works: Works
    file: Path
    variant: str | None = None

    def told(self) -> dict[str, Any] | None:
        """The ``list`` as it is shown and its ``state``; None where it was not worked out yet."""
        listed = listed_of(self.works, self.file, self.variant)
        if listed is None:
            return None
        return {"list": shown.shown_list(listed), "state": state_of(self.file.parent, listed)}

    def state(self) -> State:
        """How far it is."""
        return state_of(self.file.parent, self._list())

    def tick(self, seen: str, marks: Sequence[str], *, sawn: bool) -> State:
        """Tick parts as sawn, or no longer; how far it is then."""
        listed = self._list(seen)
        tick_parts(self.file.parent, listed, marks, sawn=sawn)
        return state_of(self.file.parent, listed)

    def understood(self, seen: str) -> State:
        """Forget ticks that no longer hold, as the maker has read which; how far it is then."""
        listed = self._list(seen)
        forget_dropped(self.file.parent, listed)
        return state_of(self.file.parent, listed)

    def again(self, seen: str) -> State:
        """Untick everything, to saw it once more; how far it is then."""
        listed = self._list(seen)
        begin_again(self.file.parent, listed)
        return state_of(self.file.parent, listed)

    def put(self, seen: str, sheet: str, piece: int, source: int | None) -> State:
        """Put what is left of a sheet on stock, once; how far it is then."""
        listed = self._list(seen)
        put_on_stock(
            self.file.parent, listed, offcut_that_is_there(self.file.parent, listed, sheet, piece), source
        )
        return state_of(self.file.parent, listed)

    def take_back(self, seen: str, sheet: str, piece: int) -> State:
        """Take what is left of a sheet off the stock again; how far it is then."""
        listed = self._list(seen)
        take_off_stock(self.file.parent, offcut_that_is_there(self.file.parent, listed, sheet, piece))
        return state_of(self.file.parent, listed)

    def fitting(self) -> list[dict[str, Any]]:
        """Which parts that are not sawn yet fit on the offcuts of the book."""
        return parts_that_fit(self.file.parent, self._list())

    def drawing(self, sheet: int | None) -> str:
        """A sheet by its number, or all bars where it is None, as SVG."""
        listed = self._list()
        return shown.bars_drawing(listed) if sheet is None else shown.sheet_drawing(listed, sheet)

    def paper(self) -> bytes:
        """The list on paper, a PDF file."""
        return shown.paper_of(self.works, self.file, self._list())

    def _list(self, seen: str | None = None) -> Listed:
        return the_list(self.works, self.file, self.variant, seen)


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
        listed = works.answers(place.folder).get(CUT)
        if not listed:
            continue
        with suppress(UserError):
            found += [
                {"job": place.name, "variant": one.variant_name, "title": one.title}
                for one in load_job(place.file).variants()
                if one.variant_name in listed
            ]
    return found
