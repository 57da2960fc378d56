"""The list of everything wooden, as it is pencilled."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.cutting.look import CutLook
from pourwright.jobs.cut_part import cut_part
from pourwright.jobs.cut_sheet import CutList

MARK = "Pencil its name on every part as it comes off the saw, on the face that shows, with an arrow up."
EDGES = "Saw panels to the line: their edges meet rubber. Boards to be glued up stay oversize until then."
SAW = (
    "Blades and dust: guard on, push stick, ear and eye protection, dust mask; sanding MDF needs extraction."
)


def list_of(look: CutLook) -> CutList:
    """List the parts.

    Parameters
    ----------
    look : CutLook
        With its parts.

    Returns
    -------
    CutList
    """
    return CutList(
        parts=[cut_part(part) for part in look.parts],
        mass_kg=sum(part.mass for part in look.parts),
        words=list(_words(look)),
        cautions=[SAW],
    )


def _words(look: CutLook) -> Iterator[str]:
    yield MARK
    yield EDGES
    if look.box is None:
        yield "A skin needs no box: only the master is listed."
