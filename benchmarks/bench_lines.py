"""Hidden lines of the parts of a mold: four pixels against one, and against rays."""

import time
from pathlib import Path

import numpy as np

from pourwright.app.molding.bodies import bodies_of
from pourwright.app.molding.look import look_at_mold
from pourwright.app.shaping.piece import read_piece
from pourwright.geometry import Mesh, joined
from pourwright.geometry.line_kernels import seen_stretches
from pourwright.geometry.line_view import LineView, _planes, drawable_edges, line_view
from pourwright.geometry.ray_tree import surface_tree
from pourwright.geometry.seen import Seen
from pourwright.jobs import load_job
from pourwright.mold.bodies.apart import apart
from pourwright.sheets.exploded_drawing import TOWARD

JOBS = ("hourglass-stool", "table-lamp")
PER_EDGE, PIXELS = 9, 2000


def parts(name: str) -> list[Mesh]:
    """All parts of an example's mold, moved apart."""
    job = load_job(Path(__file__).parents[1] / "examples" / name / "job.toml")
    bodies = bodies_of(look_at_mold(job, read_piece(job)))
    return [body.mesh.moved(shift) for body, shift in apart(bodies)]


def samples(meshes: list[Mesh], view: Seen) -> np.ndarray:
    """Places on every edge that may be drawn, (n, 3) [m]."""
    share = (np.arange(PER_EDGE) + 0.5)[:, None] / PER_EDGE
    found = []
    for mesh in meshes:
        ends = mesh.vertices[drawable_edges(mesh, view.axes[2])]
        found.append((ends[:, None, 0] + share * (ends[:, None, 1] - ends[:, None, 0])).reshape(-1, 3))
    return np.concatenate(found)


def by_rays(whole: Mesh, places: np.ndarray, view: Seen) -> np.ndarray:
    """Truth: hidden where a ray to the viewer meets something farther off than two pixels."""
    toward = np.tile(view.axes[2], (len(places), 1))
    return np.isfinite(surface_tree(whole).hits(places, toward, 2 * view.pixel)[0])


def by_planes(whole: Mesh, places: np.ndarray, view: Seen) -> np.ndarray:
    """The four pixels around each place, as for a line of no length."""
    flat, planes = view.at(places), _planes(view.at(whole.vertices), whole.faces)
    hidden = np.ones(len(flat), dtype=bool)
    hidden[seen_stretches(np.stack([flat, flat], axis=1), view.face, planes, 0.0)[0]] = False
    return hidden


def by_strokes(meshes: list[Mesh], places: np.ndarray, drawn: LineView) -> np.ndarray:
    """What is drawn in the end: no stroke of its body within a pixel."""
    flat, hidden, start = drawn.view.at(places)[:, :2], [], 0
    for mesh, strokes in zip(meshes, drawn.strokes, strict=True):
        count = PER_EDGE * len(drawable_edges(mesh, drawn.view.axes[2]))
        hidden += [nearest(point, strokes) > 1.0 for point in flat[start : start + count]]
        start += count
    return np.array(hidden)


def nearest(point: np.ndarray, lines: tuple[np.ndarray, ...]) -> float:
    """Distance of a point to the nearest of many strokes."""
    best = np.inf
    for line in lines:
        start, along = line[:-1], np.diff(line, axis=0)
        share = ((point - start) * along).sum(axis=1) / np.maximum((along**2).sum(axis=1), 1e-30)
        foot = start + np.clip(share, 0, 1)[:, None] * along
        best = min(best, float(np.linalg.norm(foot - point, axis=1).min()))
    return best


def main() -> None:
    """Print share of places told wrongly, and times."""
    for name in JOBS:
        meshes = parts(name)
        whole = joined(meshes)
        drawn = line_view(meshes, TOWARD, pixels=PIXELS)
        view = drawn.view
        places = samples(meshes, view)
        truth = by_rays(whole, places, view)
        print(f"{name}: {len(whole.faces)} triangles, {len(places)} places, {truth.mean():.1%} hidden")
        for words, told in (
            ("drawn in the end", by_strokes(meshes, places, drawn)),
            ("four pixels and planes", by_planes(whole, places, view)),
            ("one pixel, 2 px slack", view.hidden(places)),
            ("one pixel, 10 px slack", view.hidden(places, 10.0)),
        ):
            lost, false = (told & ~truth).mean(), (~told & truth).mean()
            print(f"  {words:24} lost {lost:.2%}, drawn though hidden {false:.2%}")
        begin = time.perf_counter()
        line_view(meshes, TOWARD, pixels=PIXELS)
        print(f"  whole drawing {time.perf_counter() - begin:.2f} s")
