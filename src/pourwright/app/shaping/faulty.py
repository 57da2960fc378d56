"""A shape that is refused, with what is needed to draw where."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np

from pourwright.app.shaping.shape_folder import SHAPE_FOLDER, marked
from pourwright.foundation.errors import UserError
from pourwright.geometry import LENGTHS, Fault, Mending, Repair
from pourwright.sheets.fault_drawing import Marked, fault_drawing
from pourwright.sheets.picture_files import png_of

PARTS = 400
"""A tolerance that is proposed is about this part of the body's size."""


class FaultyShape(UserError):  # noqa: N818 - named for what the maker has
    """A file holds no body that could be cast.

    Parameters
    ----------
    what, where, allowed, todo : str
        As in every error for the maker.
    repair : Repair, optional
        How far mending came.
    unit : str
        Of the places in the words.
    hint : str
        How to see a picture of it.
    """

    def __init__(
        self,
        what: str,
        *,
        where: str = "",
        allowed: str = "",
        todo: str = "",
        repair: Repair | None = None,
        unit: str = "mm",
        hint: str = "",
    ) -> None:
        super().__init__(what, where=where, allowed=allowed, todo="; ".join(filter(None, (todo, hint))))
        self.repair, self.unit = repair, unit
        self._mend = todo

    def put(self, hint: str, *, where: str | None = None, what: str | None = None) -> FaultyShape:
        """Say it from another place, and with another hint at the picture."""
        return FaultyShape(
            self.what if what is None else what,
            where=self.where if where is None else where,
            allowed=self.allowed,
            todo=self._mend,
            repair=self.repair,
            unit=self.unit,
            hint=hint,
        )

    def pictures(self) -> Iterator[tuple[str, bytes]]:
        """Draw where the faults are.

        Yields
        ------
        tuple of str and bytes
            File name and content.
        """
        if self.repair is None:
            return
        items = [_marked(fault, told(fault, self.repair, self.unit)) for fault in self.repair.faults]
        items = items or [Marked(told(m, self.repair, self.unit), m.places) for m in self.repair.mended]
        svg = fault_drawing(self.repair.mesh, "What is wrong with this shape, and where", items)
        yield "fault.svg", svg.encode()
        yield "fault.png", png_of(svg)


def refused(repair: Repair, name: str, unit: str) -> FaultyShape:
    """Say the gravest fault of a shape.

    Parameters
    ----------
    repair : Repair
        With faults.
    name : str
        File.
    unit : str
        Of the places.

    Returns
    -------
    FaultyShape
        To be raised.
    """
    grave = [fault for fault in repair.faults if fault.refused]
    first = grave[0]
    others = ", ".join(dict.fromkeys(fault.kind for fault in grave[1:] if fault.kind != first.kind))
    also = f" (also: {others})" if others else ""
    what = told(first, repair, unit) + also
    return FaultyShape(what, where=name, todo=_todo(first, repair, unit), repair=repair, unit=unit)


def pictured(error: FaultyShape, folder: Path | None) -> FaultyShape:
    """Write the picture of a refused shape, and say where it is.

    Parameters
    ----------
    error : FaultyShape
        Why it is refused.
    folder : Path or None
        Where the picture goes; replaced in one step.

    Returns
    -------
    FaultyShape
        To be raised, with a word on the picture.
    """
    if error.repair is None:
        return error
    if folder is None:
        return error.put("--out FOLDER draws where")
    SHAPE_FOLDER.write(folder, dict(error.pictures()) | marked({"refused": str(error)}))
    return error.put(f"see {folder / 'fault.png'}")


def told(found: Fault | Mending, repair: Repair, unit: str, whole: float | None = None) -> str:
    """Say a fault or a mending with its place as the file has it.

    Parameters
    ----------
    found : Fault or Mending
        In the frame of the mended mesh.
    repair : Repair
        What it was found in.
    unit : str
        Of the places.
    whole : float, optional
        Volume of the body [m3].

    Returns
    -------
    str
    """
    if isinstance(found, Mending):
        return replace(found, places=found.places + repair.shift).sentence(unit, whole)
    place = None if found.place is None else found.place + repair.shift
    return replace(found, place=place).sentence(unit)


def _marked(fault: Fault, words: str) -> Marked:
    """Point at a fault; bodies carry the numbers that the words give them."""
    if fault.kind == "bodies" and fault.places is not None:
        return Marked(words, fault.places, tuple(str(n + 1) for n in range(len(fault.places))))
    first = np.empty((0, 3)) if fault.place is None else fault.place[None]
    return Marked(words, first if fault.places is None else np.concatenate([first, fault.places]))


def _todo(fault: Fault, repair: Repair, unit: str) -> str:
    if fault.kind in {"bodies", "touching"}:
        return (
            "choose one with body = 1 under [shape] or --body 1, or join them in the program that made them"
        )
    if fault.kind in {"crossing", "overlapping"}:
        tolerance = f'"{_proposed(repair, unit)} {unit}"'
        keys = f"remesh = {tolerance} under [shape] or --remesh {tolerance}"
        return f"mend it in the program that made it, or have its surface made anew with {keys}"
    return fault.todo


def _proposed(repair: Repair, unit: str) -> str:
    """A round tolerance of 1, 2 or 5 in the maker's unit."""
    lower, upper = repair.mesh.bounds
    wanted = float((upper - lower).max()) / PARTS / float(LENGTHS[unit])
    power = 10.0 ** np.floor(np.log10(wanted))
    step = max(s for s in (1, 2, 5) if s * power <= wanted * 1.0001)
    return f"{step * power:.6g}"
