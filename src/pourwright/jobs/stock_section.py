"""The tables of the job file about wood in the shop: sheets, offcuts, bars, and the saw."""

from __future__ import annotations

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from pourwright.foundation.errors import UserError
from pourwright.jobs.fields import Length, Refused, Title
from pourwright.jobs.keys import Section, key
from pourwright.mold.wood.corners import rectangles_of_corners
from pourwright.mold.wood.defaults import WOOD

_INCHES = ("in", "ft", '"', "'")
Corner = Annotated[list[Length], Field(min_length=2, max_length=2)]


def _refuse_none(section: Section, *names: str) -> None:
    """Refuse what is no length, at its key."""
    for name in names:
        size = getattr(section, name)
        if size is not None and size.si <= 0:
            raise Refused(f"a {name} of {size.text}", "a length above 0", "measure it again", name)


class StockSheet(Section):
    """A sheet or an offcut of a board that lies in the shop."""

    name: Title | None = key("what the shop calls it", shown="sheet or offcut, and its number")
    board: str = key("id of the board that it is of")
    thickness: Length | None = key("as measured", shown="the board's own")
    length: Length | None = key(
        "along its grain where it has one", shown="the board's usual sheet, or told by corners"
    )
    width: Length | None = key("across its length", shown="the board's usual sheet, or told by corners")
    corners: list[Corner] | None = key(
        "of an offcut, one after another around it, the length from the first to the second",
        shown="length and width", why="four right angles; an L is entered as two offcuts",
    )  # fmt: skip
    count: int = key("how many there are of it", default=1, ge=1, le=10000)
    offcut: bool = key(
        "used up before a whole sheet is begun", default=False, why="whole sheets stay whole longer"
    )
    grain: Literal["length", "none"] | None = key(
        "length: it runs along the sheet's length; none: parts may be turned on it",
        shown="length; none for mdf and melamine-board",
        why="as boards are sold; parts that mind no grain turn all the same",
    )  # fmt: skip

    @model_validator(mode="after")
    def _one_size(self) -> Self:
        if self.corners is not None and (self.length is not None or self.width is not None):
            raise Refused("both corners and a length or width", "one of the two", "keep one", "corners")
        if (self.length is None) != (self.width is None):
            raise Refused("half of a size", "length and width, or neither", "add the other one")
        if self.offcut and self.length is None and self.corners is None:
            raise Refused("an offcut without a size", "length and width, or corners", "measure it")
        _refuse_none(self, "thickness", "length", "width")
        self.rectangle()
        return self

    def rectangle(self) -> tuple[float, float] | None:
        """Tell length and width as written.

        Returns
        -------
        tuple of float or None
            [m]; None where the board's usual sheet is meant.
        """
        if self.length is not None and self.width is not None:
            return self.length.si, self.width.si
        if self.corners is None:
            return None
        points = [(x.si, y.si) for x, y in self.corners]
        inches = any(each.text.rstrip().endswith(_INCHES) for corner in self.corners for each in corner)
        try:
            return rectangles_of_corners(points, "", "us" if inches else "metric")
        except UserError as error:
            raise Refused(error.what, error.allowed, error.todo, "corners") from None


class StockBar(Section):
    """A bar of a board that is only cut to length."""

    name: Title | None = key("what the shop calls it", shown="bar and its number")
    board: str = key("id of the board that it is of")
    width: Length = key("of its section")
    thickness: Length = key("of its section; which of the two is called so does not matter")
    length: Length = key("of the whole bar")
    count: int = key("how many there are of it", default=1, ge=1, le=10000)

    @model_validator(mode="after")
    def _sizes(self) -> Self:
        _refuse_none(self, "width", "thickness", "length")
        return self


class Saw(Section):
    """What the saw takes."""

    kerf: Length | None = key("width of the cut", room=WOOD["kerf"], shown="3 mm")
    trim: Length | None = key(
        "that comes off every edge of a sheet and end of a bar first", room=WOOD["trim"], shown="10 mm"
    )
    oversize: Length | None = key(
        "left on every edge of a part that is trimmed to size later", room=WOOD["oversize"], shown="5 mm"
    )
