"""A small picture of each job: the piece as it stands, its bands in the colours of their glass."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from pourwright.app.running import open_cache
from pourwright.app.shaping.piece import PieceRead, read_piece
from pourwright.app.shelf.places import JobPlace
from pourwright.foundation.errors import UserError
from pourwright.jobs import load_job
from pourwright.jobs.job import Job
from pourwright.runs import fingerprint
from pourwright.sheets.body_view import STONE, body_view
from pourwright.sheets.svg import Canvas
from pourwright.sheets.tones import NEAT, colour_tone

TOWARD = (0.55, -0.75, 0.4)
WIDTH = 180.0
LARGEST = 8_000_000
"""Bytes of a shape file beyond which the shelf does not wait for its picture."""


def picture_of(place: JobPlace) -> bytes:
    """Draw the piece of a job as it stands; drawn once, then kept.

    Parameters
    ----------
    place : JobPlace
        The job.

    Returns
    -------
    bytes
        SVG; a blank sheet with the reason where there is no body to draw.
    """
    try:
        job = load_job(place.file).variants()[0]
    except UserError:
        return _blank("no picture: the job file has an error")
    key = fingerprint(
        ("picture", job.shape.model_dump_json(), job.model_dump_json(include={"band", "sizes"}), _mark(job))
    )
    store = open_cache()
    kept = store.get(key)
    if isinstance(kept, bytes):
        return kept
    if job.shape_file is not None and job.shape_file.is_file() and job.shape_file.stat().st_size > LARGEST:
        return _blank("a large shape: open the job")
    try:
        drawn = drawn_piece(job, read_piece(job), WIDTH).encode()
    except UserError:
        return _blank("no picture: see the job")
    store.put(key, drawn)
    return drawn


def _mark(job: Job) -> tuple[tuple[str, int, int], ...]:
    """Name, size and time of every file that the shape comes from."""
    files = [job.shape_file, *(job.path.parent / name for name in job.shape.drawings)]
    there = [file for file in files if file is not None and file.is_file()]
    return tuple((file.name, file.stat().st_size, file.stat().st_mtime_ns) for file in there)


def drawn_piece(job: Job, piece: PieceRead, width: float) -> str:
    """Draw a piece as it stands, its bands in the colours of their glass.

    Parameters
    ----------
    job : Job
        With its bands.
    piece : PieceRead
        Its body.
    width : float
        Of the picture [pt].

    Returns
    -------
    str
        SVG document.
    """
    flip = -1.0 if piece.frame.flipped else 1.0
    mesh = piece.mesh
    turned = (TOWARD[0], TOWARD[1] * flip, TOWARD[2] * flip)
    return body_view(mesh, toward=turned, upward=(0.0, 0.0, flip), tints=_tints(job, piece), width=width)


def _tints(job: Job, piece: PieceRead) -> npt.NDArray[np.float64]:
    """Red, green and blue of every face, by the band its middle lies in."""
    middles = piece.mesh.vertices[piece.mesh.faces].mean(axis=1)[:, 2]
    tints = np.tile(np.asarray(STONE), (len(middles), 1))
    below = -np.inf
    for band in job.band:
        above = np.inf if band.to is None else band.to.si
        ground = NEAT if band.neat else colour_tone(band.colour)
        tints[(middles >= below) & (middles < above)] = [int(ground[i : i + 2], 16) / 255 for i in (1, 3, 5)]
        below = above
    return tints


def _blank(words: str) -> bytes:
    canvas = Canvas(WIDTH, WIDTH, words)
    canvas.text(8, WIDTH / 2, words, 9)
    return canvas.render().encode()
