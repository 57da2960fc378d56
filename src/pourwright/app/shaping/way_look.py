"""The look at a shape that says which way up to pour it, and along what to part its mold."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import numpy as np

from pourwright.app.shaping.looked import Looked
from pourwright.app.shaping.way_defaults import WAYS
from pourwright.app.shaping.way_words import Teller, face_words, way_words
from pourwright.app.shaping.ways import BEST, LARGE, RULE, Weighed, best_ways, grouped, weigh
from pourwright.app.shop import shop_folder
from pourwright.foundation.progress import Progress
from pourwright.geometry import (
    Pocket,
    Pulls,
    closer_look,
    direction_name,
    freest_pull,
    half_sphere,
    measure_ways,
    trapped_volume,
    tunnels,
    undercut_over,
)
from pourwright.materials import load_materials

USUAL_RUBBER = "silicone-platinum-a25"
FEW = 60
"""Directions of the pull looked along where the mesh is large."""


def ways_look(looked: Looked, progress: Progress) -> dict[str, Any]:
    """Propose ways up, and a direction to part a mold of two parts.

    Parameters
    ----------
    looked : Looked
        The shape.
    progress : Progress
        Told what is done.

    Returns
    -------
    dict
        The best three, the one the job has, the undercut over all directions.
    """
    progress.step("ways up", 0, 2)
    mesh, job = looked.shaped.mesh, looked.job
    teller = teller_for(looked)
    order = best_ways(mesh, looked.piece.solid)
    shallowest = min((each.way.head for each in order if each.grade < 2), default=order[0].way.head)
    answer: dict[str, Any] = {"rule": RULE, "looked_at": len(order)}
    groups = grouped(order)[:BEST]
    answer["best"] = [told(group[0], teller, shallowest, looked) for group in groups]
    for way, group in zip(answer["best"], groups, strict=True):
        way["alike"] = [written(each) for each in group[1:]]
    answer["hint"] = teller.hint(order[0], tunnels(mesh))
    if job is not None:
        way = measure_ways(mesh, [looked.piece.frame.matrix[2, :3]])[0]
        chosen = weigh(way, looked.piece.solid.volume, job.mold.method)
        answer["chosen"] = told(chosen, teller, shallowest, looked)
    progress.step("ways up", 1, 2)
    answer["parting"] = _parting(looked)
    answer["rubber"] = {"id": teller.rubber.id, "name": teller.rubber.name, "bears_share": teller.bears}
    progress.step("ways up", 2, 2)
    return answer


def teller_for(looked: Looked) -> Teller:
    """Give the words for a shape: the rubber of its job, else the usual one."""
    job = looked.job
    materials = load_materials(None if job is None else shop_folder(job))
    wanted = USUAL_RUBBER if job is None else job.mold.rubber
    return Teller(looked.system, materials.rubber.get(wanted) or materials.rubber[USUAL_RUBBER])


def told(weighed: Weighed, teller: Teller, shallowest: float, looked: Looked) -> dict[str, Any]:
    """One way up as JSON.

    Parameters
    ----------
    weighed : Weighed
        The way.
    teller : Teller
        Its words.
    shallowest : float
        Least depth of all ways [m].
    looked : Looked
        The shape.

    Returns
    -------
    dict
    """
    way = weighed.way
    pull, freed = _pull(looked, weighed)
    return {
        "up": written(weighed),
        "words": way_words(way.name),
        "open_face": face_words(way.name),
        "grade": ("as it is", "with vents", "not as it is")[weighed.grade],
        "reason": teller.reason(weighed),
        "against": list(teller.against(weighed, shallowest)),
        "open_face_m2": way.open_area,
        "open_share": way.open_share,
        "head_m": way.head,
        "size_m": [float(side) for side in way.size],
        "hold": weighed.hold,
        "caught_m3": trapped_volume(weighed.casting),
        "caught_under_master_m3": trapped_volume(weighed.rubber),
        "hollow_open_above_m3": way.basins,
        "under_rubber_share": way.blocked,
        "pull": [round(float(value), 6) + 0.0 for value in pull],
        "pull_leans_deg": float(np.degrees(np.arccos(np.clip(pull @ way.up, -1.0, 1.0)))),
        "pull_under_rubber_share": freed,
        "stretch_share": way.stretch.share,
        "neck_girth_m": way.stretch.neck_girth,
        "widest_girth_m": way.stretch.widest_girth,
        "caught": list(_caught(weighed, teller, looked)),
    }


def _pull(
    looked: Looked, weighed: Weighed
) -> tuple[np.ndarray[tuple[int, ...], np.dtype[np.float64]], float]:
    """Straight up, unless leaning frees much more."""
    way = weighed.way
    pull, freed = freest_pull(looked.shaped.mesh, way.up)
    return (pull, freed) if freed < way.blocked - WAYS["near_undercut"].value else (way.up, way.blocked)


def written(weighed: Weighed) -> str | list[float]:
    """The direction as a job file writes it: a name, or three numbers to a millionth."""
    name = weighed.way.name
    return _rounded(weighed.way.up) if "," in name else name


def _caught(weighed: Weighed, teller: Teller, looked: Looked) -> Iterator[dict[str, Any]]:
    pairs = [("casting", pocket) for pocket in weighed.casting] + [
        ("rubber", pocket) for pocket in weighed.rubber
    ]
    for liquid, pocket in pairs:
        yield _pocket(pocket, weighed, looked) | {
            "liquid": liquid,
            "todo": teller.vent(pocket, liquid, weighed),
        }


def _pocket(pocket: Pocket, weighed: Weighed, looked: Looked) -> dict[str, Any]:
    x, y, z = (float(value) for value in pocket.place)
    ground = looked.piece.frame.ground
    return {
        "volume_m3": pocket.volume,
        "highs": len(pocket.peaks),
        "x_m": x,
        "y_m": y,
        "z_m": z,
        "height_m": float(pocket.place @ weighed.way.up) - weighed.way.floor,
        "height_standing_m": z - ground,
    }


def _parting(looked: Looked) -> dict[str, Any]:
    mesh = looked.shaped.mesh
    pulls = undercut_over(mesh, None if len(mesh.faces) <= LARGE else _few())
    fine = closer_look(mesh, pulls)
    best = fine.directions[0]
    return {
        "along": direction_name(best) if "," not in direction_name(best) else _rounded(best),
        "share": float(fine.parted[0]),
        "most_share": float(pulls.parted.max()),
        "median_share": float(np.median(pulls.parted)),
        "map": list(_map(pulls)),
    }


def _few() -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    return np.concatenate([np.eye(3)[::-1], half_sphere(FEW)])


def _map(pulls: Pulls) -> Iterator[Mapping[str, float]]:
    for (x, y, z), share in zip(pulls.directions.tolist(), pulls.parted.tolist(), strict=True):
        yield {"x": round(x, 6), "y": round(y, 6), "z": round(z, 6), "share": share}


def _rounded(vector: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> list[float]:
    return [round(float(value), 6) + 0.0 for value in vector]
