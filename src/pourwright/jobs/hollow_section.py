"""The tables of the job file about a core and about what is set into a casting."""

from __future__ import annotations

from typing import Literal

from pourwright.jobs.fields import Length
from pourwright.jobs.keys import Section, key


class Hollow(Section):
    """A piece cast hollow around a core."""

    wall: Length = key("least thickness of the piece beside and under the core")
    core: str = key(
        "id of what the core is made of: a foam, cardboard, or a board", default="xps-foam",
        why="light, cut in minutes, stays in",
    )  # fmt: skip
    stays: bool = key("the core stays in the piece", default=True, why="nothing has to come out of it")
    top: Literal["open", "closed"] = key(
        "open: the core ends in the open face; closed: the wall lies over it too, and it is drowned",
        default="open", why="it can be held down and seen to while it is poured",
    )  # fmt: skip
