"""The panels of the box as they are sawn: grooves for its joints, holes for its screws."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from pourwright.mold.result import MoldResult, Panel
from pourwright.mold.wood.part import Groove, Hole, WoodPart

FACE = "the better face, to the rubber"
MARKS: Mapping[str, tuple[str, ...]] = {
    "side": ("front side", "back side"),
    "end": ("left end", "right end"),
    "base": ("base board",),
    "floor for casting": ("floor for casting",),
}
"""What is pencilled on the panels of each kind."""


@dataclass(frozen=True, kw_only=True)
class BoxScrews:
    """Screws of the box.

    Parameters
    ----------
    diameter : float
        Of the shank, which the hole lets through [m].
    corner_at : tuple of float
        Heights above the foot of a side, on each of its ends [m]; none where clamps or bands hold it.
    base_at : mapping
        By the name of the upright panel: from the corner of what is wet, through the base board [m].
    """

    diameter: float = 0.0
    corner_at: tuple[float, ...] = ()
    base_at: Mapping[str, tuple[float, ...]] = field(default_factory=dict)


def box_parts(mold: MoldResult, screws: BoxScrews) -> tuple[WoodPart, ...]:
    """List every panel of a box.

    Parameters
    ----------
    mold : MoldResult
        With its panels; the sides lap the ends, both stand on the base board.
    screws : BoxScrews
        That hold it together.

    Returns
    -------
    tuple of WoodPart
        Sides and ends lie with the foot of the rubber pour towards the maker; the base board as
        it is seen from above with the front side nearest.
    """
    return tuple(part for panel in mold.panels for part in _parts(panel, mold, screws))


def _parts(panel: Panel, mold: MoldResult, screws: BoxScrews) -> Iterator[WoodPart]:
    grooves = tuple(_grooves(panel, mold)) if panel.name == "side" else ()
    holes = {"side": _side_holes, "base": _base_holes}.get(panel.name, _no_holes)(panel, mold, screws)
    made = tuple(holes)
    for mark in MARKS.get(panel.name, (panel.name,)):
        yield WoodPart(
            mark=mark, belongs="box", board=mold.choices.board, length=panel.length, width=panel.width,
            thickness=panel.thickness, grain="length", face=FACE, grooves=grooves, holes=made,
        )  # fmt: skip


def _grooves(panel: Panel, mold: MoldResult) -> Iterator[Groove]:
    """Where the ends reach into a side."""
    depth = mold.choices.joint.depth * panel.thickness
    if depth:
        near = _beside(panel, mold) - panel.thickness
        far = panel.length - near
        yield Groove(start=near, end=near + panel.thickness, depth=depth)
        yield Groove(start=far - panel.thickness, end=far, depth=depth)


def _beside(panel: Panel, mold: MoldResult) -> float:
    """From the left edge of a long panel to the inside of the box [m]."""
    return (panel.length - mold.inside[0]) / 2.0


def _no_holes(panel: Panel, mold: MoldResult, screws: BoxScrews) -> Iterator[Hole]:
    del panel, mold, screws
    return iter(())


def _side_holes(panel: Panel, mold: MoldResult, screws: BoxScrews) -> Iterator[Hole]:
    middle = _beside(panel, mold) - panel.thickness / 2.0
    for name, x in (("left", middle), ("right", panel.length - middle)):
        for height in screws.corner_at:
            yield Hole(at=(x, height), diameter=screws.diameter, use=f"screw into the edge of the {name} end")


def _base_holes(panel: Panel, mold: MoldResult, screws: BoxScrews) -> Iterator[Hole]:
    beside, half = _beside(panel, mold), panel.thickness / 2.0
    for along in screws.base_at.get("side", ()):
        for mark, y in (("front side", half), ("back side", panel.width - half)):
            yield Hole(at=(beside + along, y), diameter=screws.diameter, use=f"screw into the {mark}")
    for along in screws.base_at.get("end", ()):
        for mark, x in (("left end", beside - half), ("right end", panel.length - beside + half)):
            at = (x, panel.thickness + along)
            yield Hole(at=at, diameter=screws.diameter, use=f"screw into the {mark}")
