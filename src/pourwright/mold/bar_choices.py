"""What was chosen about the bars that a master hangs from, in SI."""

from __future__ import annotations

from dataclasses import dataclass

from pourwright.materials.records import Board
from pourwright.mold.defaults import DEFAULTS


@dataclass(frozen=True, kw_only=True)
class BarChoices:
    """Bars across the rim of the box.

    Parameters
    ----------
    board : record, optional
        That they are sawn from; the box's own where left out.
    count : int
        Side by side.
    width, height : float
        Of one, as it lies on the rim [m].
    """

    board: Board | None = None
    count: int = int(DEFAULTS["bars"].value)
    width: float = DEFAULTS["bar_width"].value
    height: float = DEFAULTS["bar_height"].value
