"""The picture of trapped air."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, pi, sin

import numpy as np

from pourwright.app.molding.air import air_of
from pourwright.app.molding.look import MoldLook
from pourwright.geometry import plane_section, simplified
from pourwright.geometry.frames import turn_to
from pourwright.geometry.mesh import Floats, Mesh
from pourwright.geometry.ways_up.pocket_walls import air_body
from pourwright.jobs.mold_air import AirPlace
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.jobs.plan_part import Polyline
from pourwright.mold.air.cure import Cure
from pourwright.mold.air.defaults import AIR
from pourwright.mold.air.design import LiquidAir
from pourwright.mold.air.places import Place
from pourwright.sheets.mold_air_drawing import AirPicture, draw_air
from pourwright.sheets.picture_files import png_of
from pourwright.sheets.wording import Wording

MOST = 6
"""Places that are drawn."""
FINE = 2e-4
SIDES = {"y": ("left", "right"), "x": ("front", "back")}
TAKE = {
    "tilt": "dashed: the level that covers the last of it",
    "other way": "turned over, none is caught",
    "vent": "a vent straight up from its highest point",
    "none": "nothing lets it out",
}
ROCK = "no one tilt lets all bubbles out"


def air_files(look: MoldLook, sheet: MoldSheet) -> Iterator[tuple[str, bytes]]:
    """Draw each place that is told.

    Parameters
    ----------
    look : MoldLook
        The mold.
    sheet : MoldSheet
        With its air.

    Yields
    ------
    (str, bytes)
        Path and content; nothing where no air is caught.
    """
    if sheet.air is None:
        return
    words, air = Wording(sheet.job), air_of(look)
    told = [each.places for each in (sheet.air.rubber, sheet.air.casting) if each]
    found = [each for each in (air.rubber, air.casting) if each]
    pairs = [
        (liquid, cure, place)
        for liquid, places in zip(found, told, strict=True)
        for cure, place in zip(liquid.cures, places, strict=True)
    ]
    # what is done as elsewhere is drawn there
    pairs = [pair for pair in pairs if not pair[2].todo.startswith("As ")]
    if not pairs:
        return
    svg = draw_air(sheet.job.title, [_picture(look, *pair, words) for pair in pairs[:MOST]])
    yield "drawings/trapped-air.svg", svg.encode()
    yield "drawings/trapped-air.png", png_of(svg)


class _View:
    """A section square to x or y, up as a liquid rises."""

    def __init__(self, liquid: LiquidAir, cure: Cure) -> None:
        tilt = cure.tilt if cure.take == "tilt" else None
        self.axis = "x" if tilt is not None and abs(cos(tilt.side)) < abs(sin(tilt.side)) - 1e-9 else "y"
        self.sign = float(liquid.rising.up[2])
        self.along = 1 if self.axis == "x" else 0
        place = cure.place.top if isinstance(cure.place, Place) else cure.place.middle
        self.at = float(place[1 - self.along])

    def cut(self, mesh: Mesh) -> list[Polyline]:
        """Outlines of a body in the plane."""
        return [self.line(simplified(line, FINE)) for line in plane_section(mesh, self.axis, self.at)]

    def line(self, points: Floats) -> Polyline:
        """Points across and up as cast, turned up as the liquid rises."""
        return [(float(x), self.sign * float(z)) for x, z in points]

    def point(self, place: Floats) -> tuple[float, float]:
        """A place in the plane."""
        return float(place[self.along]), self.sign * float(place[2])


def _picture(look: MoldLook, liquid: LiquidAir, cure: Cure, place: AirPlace, words: Wording) -> AirPicture:
    view, mesh = _View(liquid, cure), liquid.rising.mesh
    body = view.cut(mesh)
    tilt, covered = _tilt(liquid, cure, view)
    spot = cure.place
    caught, casting = isinstance(spot, Place), liquid.which == "casting"
    amount = words.volume(place.volume_m3) if place.volume_m3 is not None else words.patch(place.area_m2)
    what = f"{amount} of air" if caught else f"level ceiling, {amount}"
    return AirPicture(
        title=f"{place.letter}  {'casting' if casting else 'rubber'}: {what}",
        words=_words(liquid, place, words),
        body=body,
        casting=casting,
        room=_room(look, liquid, view),
        sides=SIDES[view.axis],
        core=view.cut(look.hollow.body.core) if casting and look.hollow is not None else (),
        air=_air(liquid, cure, view),
        ceiling=() if isinstance(spot, Place) else _ceiling(body, view.point(spot.middle)[1]),
        vents=_vents(cure, view),
        bore=AIR["bore"].value,
        tilt=tilt,
        covered=covered,
        chocked=bool(tilt) and liquid.which != "hung",
    )


def _words(liquid: LiquidAir, place: AirPlace, words: Wording) -> str:
    """What stands under the picture."""
    if place.kind == "ceiling" and place.take == "none":
        return ROCK
    if place.take != "tilt" or place.tilt is None:
        return TAKE[place.take]
    chock = words.length(place.tilt.chock_m)
    how = (
        f"{place.tilt.side} let in {chock} higher"
        if liquid.which == "hung"
        else f"{chock} under {place.tilt.side}"
    )
    return f"{how}; {TAKE['tilt']}"


def _room(look: MoldLook, liquid: LiquidAir, view: _View) -> tuple[tuple[float, float], tuple[float, float]]:
    """Rubber around the body, across and up [m]."""
    half = look.mold.inside[view.along] / 2
    low, high = (float(z) for z in liquid.rising.mesh.bounds[:, 2])
    ends = sorted((view.sign * (low - look.mold.base), view.sign * high))
    return (-half, half), (ends[0], ends[1])


def _tilt(liquid: LiquidAir, cure: Cure, view: _View) -> tuple[float, float]:
    """By which the right side is lifted, and how high the level then lies; zeros where nothing is tilted."""
    if cure.take != "tilt" or cure.tilt is None:
        return 0.0, 0.0
    up = liquid.rising.tilted(cure.tilt.side, cure.tilt.angle)
    covered = float((liquid.rising.mesh.vertices[cure.place.corners] @ up).max())
    # what the tilt lifts beside the plane counts as a height in it
    covered -= view.at * float(up[1 - view.along])
    toward = cos(cure.tilt.side - (pi / 2 if view.axis == "x" else 0.0))
    return float(np.sign(toward)) * cure.tilt.angle, covered


def _air(liquid: LiquidAir, cure: Cure, view: _View) -> list[Polyline]:
    if not isinstance(cure.place, Place):
        return []
    rising, place = liquid.rising, cure.place
    body = air_body(rising.mesh, place.top, view.sign * place.lip, turn_to(rising.up), outside=rising.outside)
    return view.cut(body)


def _ceiling(body: Sequence[Polyline], height: float) -> list[Polyline]:
    """Edges of the section at the height of a level ceiling."""
    found = []
    for line in body:
        for one, other in zip(line, [*line[1:], line[0]], strict=True):
            flat = abs(one[1] - other[1]) <= AIR["level"].value * abs(one[0] - other[0])
            if flat and abs(one[1] - height) < 0.002 and one != other:
                found.append([one, other])
    return found


def _vents(cure: Cure, view: _View) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    if cure.take != "vent":
        return []
    return [((x, z), (x, z + vent.length)) for vent in cure.vents for x, z in [view.point(vent.foot)]]
