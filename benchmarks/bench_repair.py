"""Mending: what becomes of every faulty file of the tests, by us and by two libraries, and how fast."""

import contextlib
import tempfile
import time
import warnings
from collections.abc import Callable
from functools import partial

import manifold3d
import numpy as np
import trimesh

from pourwright.geometry import Mesh, box, find_faults, joined, measure, read_mesh, repaired
from pourwright.geometry.mesh import Integers
from tests.geometry.bodies import ball
from tests.geometry.faulty import CASES, soup, without, write_case

Answer = tuple[float | None, str]
"""Volume [m3], or None where it was refused, and why."""


def ours(mesh: Mesh) -> Answer:
    """Our own mending."""
    found = repaired(mesh)
    grave = [fault for fault in found.faults if fault.refused]
    return (None, grave[0].kind) if grave else (measure(found.mesh).volume, "")


def by_trimesh(mesh: Mesh) -> Answer:
    """All that trimesh mends by itself; what is not closed then counts as refused."""
    body = trimesh.Trimesh(np.array(mesh.vertices), np.array(mesh.faces), process=True)
    with contextlib.suppress(Exception):
        body.update_faces(body.unique_faces() & body.nondegenerate_faces())
        trimesh.repair.fix_normals(body, multibody=True)
        trimesh.repair.fill_holes(body)
        trimesh.repair.fix_normals(body, multibody=True)
    if not body.is_watertight or len(body.faces) == 0:
        return None, "not closed"
    return float(body.volume), ""


def by_manifold(mesh: Mesh) -> Answer:
    """What manifold3d takes after its own merging of corners."""
    content = manifold3d.Mesh64(np.array(mesh.vertices), mesh.faces.astype(np.uint64))
    content.merge()
    body = manifold3d.Manifold(content)
    if body.status() != manifold3d.Error.NoError:
        return None, body.status().name
    whole = body + manifold3d.Manifold()
    return (whole.volume(), "") if whole.volume() > 0 else (None, "empty")


RIVALS: dict[str, Callable[[Mesh], Answer]] = {"ours": ours, "trimesh": by_trimesh, "manifold3d": by_manifold}


def verdict(answer: Answer, wanted: float | None, within: float) -> str:
    """Say whether a volume is the one meant; a shape without a clear meaning has to be refused."""
    volume, why = answer
    if volume is None:
        return "refused" if wanted is None else f"refused: {why}"
    if wanted is None:
        return f"WRONG: takes {volume:.4g} m3"
    share = volume / wanted - 1
    return "right" if abs(share) <= max(within, 1e-6) else f"WRONG by {100 * share:+.2g} %"


def table() -> None:
    """Print one line for each faulty file, and how many each gets right."""
    right = dict.fromkeys(RIVALS, 0)
    silent = dict.fromkeys(RIVALS, 0)
    with tempfile.TemporaryDirectory() as folder, warnings.catch_warnings(), np.errstate(all="ignore"):
        warnings.simplefilter("ignore")
        print(f"{'file':42}" + "".join(f"{name:>26}" for name in RIVALS))
        for name, case in CASES.items():
            mesh = read_mesh(write_case(name, folder), "mm")
            said = {rival: verdict(mend(mesh), case.volume, case.within) for rival, mend in RIVALS.items()}
            for rival, words in said.items():
                right[rival] += words in {"right", "refused"}
                silent[rival] += words.startswith("WRONG")
            print(f"{name:42}" + "".join(f"{words[:25]:>26}" for words in said.values()))
    count = len(CASES)
    print(f"{f'as it should be, of {count}':42}" + "".join(f"{n:26}" for n in right.values()))
    print(f"{'wrong without a word':42}" + "".join(f"{n:26}" for n in silent.values()))


def timed(work: Callable[[], object]) -> float:
    """Shortest of three runs [s]."""
    times = []
    for _ in range(3):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times)


def flips(mesh: Mesh, share: float) -> Integers:
    """Turn a share of the triangles."""
    faces = mesh.faces.copy()
    chosen = np.random.default_rng(0).random(len(faces)) < share
    faces[chosen] = faces[chosen][:, ::-1]
    return faces


def speed() -> None:
    """Print how long each takes on larger bodies."""
    fine = ball(0.1, 7)
    bodies = {
        "sound": fine,
        "flipped triangles": Mesh(fine.vertices, flips(fine, 0.1)),
        "one missing triangle": without(fine, 77),
        "two overlapping balls": joined([ball(0.1, 6), ball(0.1, 6, center=(0.1, 0.0, 0.0))]),
        "a ball swallowed by a box": joined([box([0.3, 0.3, 0.3]), ball(0.1, 7, center=(0.0, 0.0, 0.15))]),
    }
    print(f"\n{'triangles':42}" + "".join(f"{name:>26}" for name in RIVALS))
    for name, mesh in bodies.items():
        seconds = [timed(partial(mend, mesh)) for mend in RIVALS.values()]
        line = "".join(f"{second:24.2f} s" for second in seconds)
        print(f"{f'{name}, {len(mesh.faces)}':42}{line}")
    loose = soup(fine)
    print(f"{'looking for faults alone':42}{timed(lambda: find_faults(loose)):24.2f} s")


def main() -> None:
    """Print both tables."""
    ours(box([0.1, 0.1, 0.1]))
    table()
    speed()
