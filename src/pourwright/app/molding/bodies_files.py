"""Bodies and pictures of a job's mold, as files."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from pourwright.app.molding.bodies import bodies_of, kinds_of
from pourwright.app.molding.bodies_sections import cast_section, poured_section
from pourwright.app.molding.look import MoldLook
from pourwright.geometry import Mesh, joined
from pourwright.geometry.files.writers import stl_bytes, threemf_of_bodies
from pourwright.jobs.mold_sheet import MoldSheet
from pourwright.mold.bodies.apart import apart
from pourwright.mold.bodies.body import Body, MoldBodies
from pourwright.sheets.exploded_drawing import Piece, draw_exploded
from pourwright.sheets.mold_section_drawing import draw_mold_section
from pourwright.sheets.picture_files import png_of
from pourwright.sheets.wording import Wording


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
    drawings = {
        "mold-poured": draw_mold_section(poured_section(look, bodies, words), words),
        "mold-cast": draw_mold_section(cast_section(look, bodies, sheet, words), words),
        "parts": draw_exploded(_pieces(bodies, sheet), title, words),
    }
    for name, svg in drawings.items():
        yield f"drawings/{name}.svg", svg.encode()
        yield f"drawings/{name}.png", png_of(svg)


def _named(group: tuple[Body, ...]) -> Mapping[str, Mesh]:
    return {f"{body.name}, {body.place}" if body.place else body.name: body.mesh for body in group}


def _pieces(bodies: MoldBodies, sheet: MoldSheet) -> list[Piece]:
    assert sheet.bodies is not None
    part_of = {
        body: part for part, alike in zip(sheet.bodies.parts, kinds_of(bodies), strict=True) for body in alike
    }
    return [Piece(part_of[body], body.mesh.moved(shift)) for body, shift in apart(bodies)]
