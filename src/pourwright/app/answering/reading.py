"""The slow part of the cheap answers, for a process of its own: read the shape, find what is to be found."""

from __future__ import annotations

from pourwright.app.answering.desk import Known
from pourwright.app.answering.keys import blocks_key, body_key, is_large
from pourwright.app.answering.looked import look_cheaply
from pourwright.app.answering.skins import skin_curve, skin_key
from pourwright.app.answering.tape import outline_of
from pourwright.app.checking import LOOKS, mineral_findings
from pourwright.app.learnt.in_force import shop_materials
from pourwright.app.running import open_cache
from pourwright.app.shaping.piece import PieceRead, piece_of, read_body
from pourwright.foundation.progress import SILENT, Progress
from pourwright.geometry.kept import beside
from pourwright.jobs.job import Job
from pourwright.mold.blocks.asked import BlocksAsked
from pourwright.mold.blocks.placed import placed_blocks
from pourwright.mold.space_block import SpaceBlock
from pourwright.pour.store import Store


def read_for_answers(job: Job, progress: Progress = SILENT, store: Store | None = None) -> int:
    """Read the shape of a job and find all that its cheap answers need, and keep it.

    Parameters
    ----------
    job : Job
        One variant.
    progress : Progress
        Told what is done; may raise Cancelled.
    store : Store, optional
        Where it is kept; the user's own where left out.

    Returns
    -------
    int
        Triangles of the shape.

    Raises
    ------
    UserError
        For a job or a shape that cannot be used, with the line.
    """
    store = open_cache() if store is None else store
    key = body_key(job)
    progress.step("reading the shape", 0, 4)
    body = read_body(job, progress)
    progress.step("looking at the shape", 1, 4)
    _find(job, piece_of(job, body), store, progress)
    if is_large(job):
        progress.step("keeping it", 3, 4)
        store.put(key, Known(body, dict(beside(body.turned.mesh))))
    progress.step("keeping it", 4, 4)
    return len(body.turned.mesh.faces)


def _find(job: Job, piece: PieceRead, store: Store, progress: Progress) -> None:
    """Ask everything once, so that it is beside the mesh, and keep space blocks."""

    def find(asked: BlocksAsked) -> tuple[SpaceBlock, ...]:
        progress.step("looking for space blocks", 2, 4)
        found = placed_blocks(asked)
        store.put(blocks_key(asked), found)
        return found

    if job.mold.way == "skin":
        progress.step("measuring the skin", 1, 4)
        store.put(skin_key(piece.mesh), skin_curve(piece.mesh))
    look = look_cheaply(job, piece, shop_materials(job), find)
    outline_of(look)
    if look.setup is None:
        assert look.mix is not None
        list(mineral_findings(look.mold_look, look.mix))
        return
    for name, find_in in LOOKS:
        progress.step(f"looking at the {name}", 2, 4)
        list(find_in(look.setup))
