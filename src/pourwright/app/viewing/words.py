"""The text twin of the view: what its pictures show, said."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import numpy as np

from pourwright.app.heights import in_both
from pourwright.app.shaping.thin import measure_thin
from pourwright.app.shaping.thin_look import entries, teller_of
from pourwright.app.viewing.asked import Asked
from pourwright.app.viewing.tints import UP
from pourwright.app.viewing.told import extents
from pourwright.foundation.notation import format_coordinate
from pourwright.geometry.ways_up.drafts import draft_shares
from pourwright.geometry.ways_up.held import Held, held_regions
from pourwright.jobs.plan import PlanDocument, Pour

MOST = 8
"""Undercuts that are told, the largest first."""
Place = tuple[float, float, float]


def twin_part(asked: Asked, view: dict[str, Any], plan: PlanDocument | None) -> dict[str, Any]:
    """Say what the view shows.

    Parameters
    ----------
    asked : Asked
        The job.
    view : dict
        Its list of parts.
    plan : PlanDocument, optional
        For the heat.

    Returns
    -------
    dict
        Rows of the parts; lean, undercuts, thin places and heat in sentences, each with its numbers.
    """
    return {
        "parts": list(extents(view)),
        "draft": _draft(asked),
        "undercuts": [_undercut(asked, region) for region in held_regions(asked.piece.mesh, UP)[:MOST]],
        "thin": list(_thin(asked)),
        "heat": [] if plan is None else [_heat(asked, pour) for pour in plan.pours],
    }


def where(asked: Asked, place: Place) -> str:
    """Say where a place lies: from the piece's middle, and its height in both readings.

    Parameters
    ----------
    asked : Asked
        The job.
    place : tuple of float
        In the pour frame [m].

    Returns
    -------
    str
    """
    x, y = (format_coordinate(value, asked.words.system) for value in place[:2])
    height = in_both(asked.piece.frame, place[2], asked.words.system, place)
    return f"x = {x}, y = {y} from the middle, {height} above the mold's floor"


def _draft(asked: Asked) -> dict[str, Any]:
    shares = draft_shares(asked.piece.mesh, UP)
    share = asked.words.share
    return {
        "undercut": shares.undercut,
        "upright": shares.upright,
        "little": shares.little,
        "free": shares.free,
        "text": (
            f"Of the surface that touches the mold {share(shares.undercut)} leans back over the rubber, "
            f"{share(shares.upright)} stands upright within 1 degree, {share(shares.little)} opens by 1 to 3 "
            f"degrees and {share(shares.free)} by more."
        ),
    }


def _undercut(asked: Asked, region: Held) -> dict[str, Any]:
    x, y, z = (float(value) for value in region.place)
    depth, volume = asked.words.length(region.depth), asked.words.volume(region.volume)
    return {
        "depth_m": region.depth,
        "volume_m3": region.volume,
        "place_m": [x, y, z],
        "low_m": region.lowest,
        "high_m": region.highest,
        "text": f"{volume} of rubber reach in by {depth}, deepest at {where(asked, (x, y, z))}.",
    }


def _thin(asked: Asked) -> Iterator[dict[str, Any]]:
    frame, system = asked.piece.frame, asked.words.system
    # thin places are told by the numbers of the file, so they are looked for there
    mesh = asked.piece.mesh.transformed(np.linalg.inv(frame.matrix))
    for entry in entries(measure_thin(mesh, system), teller_of(frame, system)):
        place = frame.matrix @ np.array([entry["x_m"], entry["y_m"], entry["z_m"], 1.0])
        text = entry["text"]
        yield {
            "kind": entry["kind"],
            "thickness_m": entry.get("thickness_m"),
            "place_m": [float(value) for value in place[:3]],
            "text": f"{text[0].upper()}{text[1:]}.",
        }


def _heat(asked: Asked, pour: Pour) -> dict[str, Any]:
    words = asked.words
    hottest = words.temperature(pour.peak_temperature_degC)
    limit = words.temperature(pour.peak_limit_degC)
    over = "over" if pour.peak_temperature_degC > pour.peak_limit_degC else "within"
    return {
        "pour": pour.number,
        "temperature_degC": pour.peak_temperature_degC,
        "limit_degC": pour.peak_limit_degC,
        "after_h": pour.peak_after_h,
        "place_m": list(pour.peak_place_m),
        "text": (
            f"Pour {pour.number} is hottest {words.duration(pour.peak_after_h)} after its start: {hottest} "
            f"at {where(asked, pour.peak_place_m)}; {over} the limit of {limit}."
        ),
    }
