"""Bodies and pictures of a job's mold, as files."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from pourwright.app.molding.bodies import bodies_of, kinds_of
from pourwright.app.molding.bodies_sections import cast_section, poured_section
from pourwright.app.molding.look import MoldLook
from pourwright.geometry import Mesh, joined
from pourwright.geometry.files.writers import stl_bytes, threemf_of_bodies
from pourwright.jobs.mold_bodies import Bodies
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.mold.bodies.apart import apart
from pourwright.mold.bodies.body import Body, MoldBodies
from pourwright.sheets.exploded_drawing import Piece, draw_exploded
from pourwright.sheets.mold_section_drawing import draw_mold_section
from pourwright.sheets.picture_files import png_of
from pourwright.sheets.wording import Wording

DRAWN = ("mold-poured", "mold-cast", "parts")
"""Names of the drawings."""


def bodies_files(look: MoldLook, sheet: MoldSheet) -> Iterator[tuple[str, bytes]]:
    """Write every body, and the picture of all parts.

    Parameters
    ----------
    look : MoldLook
        The mold.
    sheet : MoldSheet
        With its bodies.

    Yields
    ------
    (str, bytes)
        Path and content.
    """
    if sheet.bodies is None:
        return
    bodies = bodies_of(look)
    title, words = sheet.job.title, Wording(sheet.job)
    groups = {"rubber": (bodies.rubber,), "space-blocks": bodies.blocks, "box": bodies.panels}
    for name, group in groups.items():
        if group:
            yield f"{name}.stl", stl_bytes(joined([body.mesh for body in group]))
            yield f"{name}.3mf", threemf_of_bodies(_named(group), f"{title}: {name.replace('-', ' ')}")
    for name in DRAWN:
        svg = body_drawing(name, look, bodies, sheet.bodies, words)
        yield f"drawings/{name}.svg", svg.encode()
        yield f"drawings/{name}.png", png_of(svg)


def body_drawing(name: str, look: MoldLook, bodies: MoldBodies, told: Bodies, words: Wording) -> str:
    """Draw the section as the rubber is poured, the section as it is cast, or all parts.

    Parameters
    ----------
    name : str
        One of `DRAWN`.
    look : MoldLook
        The mold.
    bodies : MoldBodies
        Of it.
    told : Bodies
        Their list.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        SVG document.
    """
    if name == "mold-poured":
        return draw_mold_section(poured_section(look, bodies, words), words)
    if name == "mold-cast":
        return draw_mold_section(cast_section(look, bodies, words), words)
    return draw_exploded(pieces_of(bodies, told), look.job.title, words)


def _named(group: tuple[Body, ...]) -> Mapping[str, Mesh]:
    return {f"{body.name}, {body.place}" if body.place else body.name: body.mesh for body in group}


def pieces_of(bodies: MoldBodies, told: Bodies) -> list[Piece]:
    """Move every body clear of the others, each with the part it is told as.

    Parameters
    ----------
    bodies : MoldBodies
        Of a mold.
    told : Bodies
        Their list.

    Returns
    -------
    list of Piece
    """
    part_of = {body: part for part, alike in zip(told.parts, kinds_of(bodies), strict=True) for body in alike}
    return [Piece(part_of[body], body.mesh.moved(shift)) for body, shift in apart(bodies)]
