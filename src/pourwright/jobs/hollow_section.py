"""The tables of the job file about a core and about what is set into a casting."""

from __future__ import annotations

from typing import Literal, Self

from pydantic import model_validator

from pourwright.jobs.fields import Length, Mass, Refused, Title
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


FACES: dict[str, str] = {
    "top": "xy",
    "bottom": "xy",
    "left": "yz",
    "right": "yz",
    "front": "xz",
    "back": "xz",
}
"""Faces of a piece as poured, and the keys that say where on them."""
LEAST, MOST = 0.001, 1.0
"""Sizes of inserts [m]: a slip of the unit lies outside."""


class Insert(Section):
    """What is set into the mold and stays in the casting, or leaves its room there."""

    kind: Literal["socket", "tube", "light"] = key(
        "threaded socket for a leg or a bolt; tube that a wire runs in; round recess for a light"
    )
    name: Title | None = key("what it is called on paper", shown="its kind and number")
    face: Literal["top", "bottom", "left", "right", "front", "back"] = key(
        "face that it goes in from, as poured: top is the open face, front is seen along +y"
    )
    x: Length | None = key(
        "from the piece's middle to the right, as poured", shown="required unless left or right"
    )
    y: Length | None = key("from the piece's middle to the back", shown="required unless front or back")
    z: Length | None = key("up from the mold's floor", shown="required unless top or bottom")
    diameter: Length = key("its widest")
    depth: Length | None = key(
        "from the face to its end",
        shown="of a tube: to the core, or right through",
        why="a wire needs a way out",
    )
    mass: Mass | None = key("as weighed, its plugs with it", shown="by its kind, from memory")

    @model_validator(mode="after")
    def _placed(self) -> Self:
        needed = FACES[self.face]
        for name in "xyz":
            if (getattr(self, name) is not None) != (name in needed):
                came = f"an insert from the {self.face} {'without' if name in needed else 'with'} {name}"
                raise Refused(came, f"{' and '.join(needed)}", "say where on that face it goes in", name)
        for name in ("diameter", "depth"):
            size = getattr(self, name)
            if size is not None and not LEAST <= size.si <= MOST:
                raise Refused(
                    f"{size.text!r} is no {name} of an insert", "1 mm to 1 m", "mend the value", name
                )
        if self.mass is not None and self.mass.si <= 0:
            raise Refused(f"a mass of {self.mass.text!r}", "more than 0", "weigh it", "mass")
        if self.depth is None and self.kind != "tube":
            raise Refused(f"a {self.kind} without depth", "a depth", "say how far it goes in", "depth")
        return self
