"""Every faulty shape file that the tests read, with the volume of the body that was meant.

``python -m tests.geometry.faulty FOLDER`` writes them all.
"""

import struct
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import trimesh

from pourwright.geometry import Mesh, box, cone, joined, measure
from tests.geometry.bodies import ball, hourglass, torus, turned

MM = 1000.0
CUBE = box([0.2, 0.2, 0.2])
BALL = ball(0.1, center=(0.0, 0.0, 0.1))


@dataclass(frozen=True)
class Case:
    """One faulty file.

    ``volume`` is that of the body meant [m3] and ``within`` the share it may be off; None where it is
    refused, with the ``kind`` of the fault. ``told`` is a kind of mending that must be said.
    """

    make: Callable[[], Mesh]
    volume: float | None = None
    within: float = 1e-9
    told: str | None = None
    kind: str | None = None
    place: tuple[float, float, float] | None = None
    ending: str = ".stl"


def soup(mesh):
    return Mesh(mesh.triangles.reshape(-1, 3), np.arange(3 * len(mesh.faces)).reshape(-1, 3))


def without(mesh, *dropped):
    return Mesh(mesh.vertices, np.delete(mesh.faces, dropped, axis=0))


def flipped(mesh, *turned_faces):
    faces = mesh.faces.copy()
    faces[list(turned_faces)] = faces[list(turned_faces)][:, ::-1]
    return Mesh(mesh.vertices, faces)


def more(mesh, faces, vertices=()):
    points = np.concatenate([mesh.vertices, np.reshape(vertices, (-1, 3))])
    return Mesh(points, np.concatenate([mesh.faces, np.reshape(faces, (-1, 3))]))


def shaken(mesh, size, seed=0):
    """Give every triangle its own corners, each off by a little."""
    loose = soup(mesh)
    rng = np.random.default_rng(seed)
    return Mesh(loose.vertices + rng.uniform(-size, size, loose.vertices.shape), loose.faces)


def capped(mesh, face=0):
    """Part one side of a triangle by a corner that its neighbour does not have, bridged by a sliver."""
    a, b, c = mesh.faces[face]
    m = len(mesh.vertices)
    rest = np.delete(mesh.faces, face, axis=0)
    split = [[a, m, c], [m, b, c], [a, b, m]]
    return Mesh(np.concatenate([mesh.vertices, [(mesh.vertices[a] + mesh.vertices[b]) / 2]]), [*rest, *split])


def slit(mesh, face=0):
    """The same without the sliver: a slit of no width."""
    return without(capped(mesh, face), len(mesh.faces) + 1)


def far_out(mesh, shift):
    """Round the corners to numbers of 32 bits, in millimetres, far from the origin."""
    return Mesh(((mesh.vertices + shift) * MM).astype(np.float32).astype(float) / MM, mesh.faces)


def finned():
    """A cube with a wall without thickness on its side, both faces of it in the file."""
    corners = [[0.1, -0.1, 0.0], [0.1, -0.1, 0.2], [0.18, -0.1, 0.0], [0.18, -0.1, 0.2]]
    return joined([CUBE, Mesh(corners, [[0, 2, 3], [0, 3, 1], [3, 2, 0], [1, 3, 0]])])


def knot():
    """A tube that runs through itself: a torus squeezed to a figure of eight."""
    whole = torus(0.2, 0.03)
    vertices = whole.vertices.copy()
    angle = np.arctan2(vertices[:, 1], vertices[:, 0])
    radius = np.hypot(vertices[:, 0], vertices[:, 1]) - 0.2
    center = np.stack([0.2 * np.sin(angle), 0.1 * np.sin(2 * angle)], axis=1)
    along = np.stack([np.cos(angle) * 0.2, np.cos(2 * angle) * 0.2], axis=1)
    along /= np.linalg.norm(along, axis=1)[:, None]
    outward = np.stack([-along[:, 1], along[:, 0]], axis=1)
    vertices[:, :2] = center + radius[:, None] * outward
    made = Mesh(vertices, whole.faces)
    return made if measure(made).volume > 0 else made.reversed()


def moebius(steps=24):
    angle = np.linspace(0, 2 * np.pi, steps, endpoint=False)
    faces = []
    edge = []
    for side in (-1, 1):
        r = 0.1 + 0.03 * side * np.cos(angle / 2)
        edge.append(np.stack([r * np.cos(angle), r * np.sin(angle), 0.03 * side * np.sin(angle / 2)], axis=1))
    for n in range(steps):
        a, b = n, (n + 1) % steps
        a2, b2 = a + steps, b + steps
        if n == steps - 1:
            b, b2 = b2, b
        faces += [[a, b, b2], [a, b2, a2]]
    return Mesh(np.concatenate(edge), faces)


def with_ring_removed(mesh, vertex):
    return Mesh(mesh.vertices, mesh.faces[~(mesh.faces == vertex).any(axis=1)])


def broken_corner(mesh, value):
    vertices = soup(mesh).vertices.copy()
    vertices[30, 1] = value
    return Mesh(vertices, soup(mesh).faces)


def stray(mesh, value):
    """A sound body and one more triangle whose corners are no numbers."""
    loose = soup(mesh)
    return more(loose, [np.arange(3) + len(loose.vertices)], np.full((3, 3), value))


def _volume(mesh):
    return measure(mesh).volume


SIDE3 = 0.2**3
HOLE = tuple(float(x) for x in BALL.triangles[77].mean(axis=0))
CASES = {
    # welding, doubles, slivers
    "unwelded": Case(lambda: soup(turned(hourglass(), 1)), _volume(hourglass()), 1e-6),
    "unwelded by the last digits": Case(
        lambda: shaken(turned(CUBE, 5), 3e-8), SIDE3, 1e-5, "welded", ending=".obj"
    ),
    "doubled faces": Case(lambda: more(CUBE, CUBE.faces[[3, 7, 8]]), SIDE3, 1e-6, "doubled"),
    "doubled body": Case(lambda: joined([BALL, BALL]), _volume(BALL), 1e-6, "doubled"),
    "doubled and flipped faces": Case(
        lambda: more(BALL, BALL.faces[40:44, ::-1]), _volume(BALL), 1e-6, "doubled"
    ),
    "bodies that share a wall": Case(
        lambda: joined([CUBE, CUBE.moved([0.2, 0, 0])]), 2 * SIDE3, 1e-6, "inner wall"
    ),
    "bodies that touch in a face": Case(
        lambda: joined([CUBE, box([0.2, 0.1, 0.1]).moved([0.2, 0.0, 0.05])]), SIDE3 + 0.002, 1e-6, "joined"
    ),
    "fin without thickness": Case(finned, SIDE3, 1e-6, "fin"),
    "degenerate face": Case(lambda: capped(CUBE), SIDE3, 1e-6, "degenerate", ending=".obj"),
    "face that is a point": Case(lambda: more(soup(CUBE), [[0, 0, 1]]), SIDE3, 1e-6),
    "slit without width": Case(lambda: slit(CUBE), SIDE3, 1e-6, "hole", ending=".obj"),
    # orientation
    "flipped faces": Case(lambda: flipped(BALL, 10, 11, 300), _volume(BALL), 1e-6, "flipped"),
    "all inverted": Case(lambda: torus().reversed(), _volume(torus()), 1e-6, "inverted"),
    "all inverted and overlapping": Case(
        lambda: joined([CUBE, CUBE.moved([0.1, 0.05, 0.02])]).reversed(),
        2 * SIDE3 - 0.1 * 0.15 * 0.18, 1e-6, "inverted",
    ),
    "one of two overlapping bodies inverted": Case(
        lambda: joined([CUBE, CUBE.moved([0.1, 0.05, 0.02]).reversed()]),
        kind="inverted", place=(0.1, 0.05, 0.12),
    ),
    "nested bodies both inverted": Case(
        lambda: joined([CUBE, ball(0.05, center=(0, 0, 0.1))]).reversed(), kind="inverted", place=(0, 0, 0.1)
    ),
    "inverted with its cavity": Case(
        lambda: joined([CUBE, ball(0.05, center=(0, 0, 0.1)).reversed()]).reversed(),
        SIDE3 - _volume(ball(0.05)), 1e-6, "inverted",
    ),
    "one side only": Case(moebius, kind="one-sided", place=(0, 0, 0)),
    # holes
    "one missing triangle": Case(lambda: without(BALL, 77), _volume(BALL), 1e-6, "hole"),
    "one missing triangle of a box": Case(lambda: without(CUBE, 2), SIDE3, 1e-6, "hole"),
    "small hole": Case(lambda: with_ring_removed(ball(0.1, 5), 3000), _volume(ball(0.1, 5)), 1e-5, "hole"),
    "two small holes": Case(
        lambda: without(ball(0.1, 5), 5, 9000), _volume(ball(0.1, 5)), 1e-6, "hole", ending=".ply"
    ),
    "large hole": Case(lambda: without(CUBE, 2, 3), kind="open", place=(0.0, 0.0, 0.2)),
    "two large holes": Case(lambda: without(CUBE, 0, 1, 2, 3), kind="open", place=None),
    # bodies
    "overlapping bodies": Case(
        lambda: joined([CUBE, CUBE.moved([0.15, 0.1, 0.05])]), 2 * SIDE3 - 0.05 * 0.1 * 0.15, 1e-6, "joined"
    ),
    "overlapping bodies with a cavity": Case(
        lambda: joined([CUBE, ball(0.05, center=(-0.04, 0, 0.1)).reversed(), CUBE.moved([0.15, 0.0, 0.0])]),
        2 * SIDE3 - 0.05 * 0.04 - _volume(ball(0.05)), 1e-6, "joined",
    ),
    "nested body": Case(lambda: joined([CUBE, ball(0.05, center=(0, 0, 0.1))]), SIDE3, 1e-6, "nested"),
    "cavity": Case(
        lambda: joined([CUBE, ball(0.05, center=(0, 0, 0.1)).reversed()]), SIDE3 - _volume(ball(0.05)), 1e-6
    ),
    "cavity in a cavity": Case(
        lambda: joined([CUBE, *(ball(r, center=(0, 0, 0.1)).reversed() for r in (0.08, 0.04))]),
        kind="loose", place=(0, 0, 0.1),
    ),
    "loose body in a cavity": Case(
        lambda: joined([CUBE, ball(0.08, center=(0, 0, 0.1)).reversed(), ball(0.04, center=(0, 0, 0.1))]),
        kind="loose", place=(0, 0, 0.1),
    ),
    "cavity through the wall": Case(
        lambda: joined([CUBE, ball(0.05, center=(0.1, 0, 0.1)).reversed()]),
        kind="inverted", place=(0.1, 0, 0.1),
    ),
    "several bodies": Case(
        lambda: joined([ball(0.05, center=(0.5, 0, 0.1)), CUBE, box([0.02] * 3).moved([0, 0.5, 0])]),
        kind="bodies",
    ),
    "bodies that touch at an edge": Case(
        lambda: joined([CUBE, CUBE.moved([0.2, 0.2, 0.0])]), kind="touching", place=(0.1, 0.1, 0.0)
    ),
    "bodies that touch at a corner": Case(
        lambda: joined([CUBE, CUBE.moved([0.2, 0.2, 0.2])]), kind="touching", place=(0.1, 0.1, 0.2)
    ),
    "self-intersecting body": Case(knot, kind="crossing", place=(0, 0, 0)),
    "knife edge": Case(lambda: cone(0.2, 0.0, 0.02), _volume(cone(0.2, 0.0, 0.02)), 1e-6, "knife edge"),
    # numbers
    "no number": Case(lambda: broken_corner(BALL, np.nan), kind="nan"),
    "infinite number": Case(lambda: broken_corner(BALL, np.inf), kind="nan"),
    "stray triangle without numbers": Case(lambda: stray(BALL, np.nan), _volume(BALL), 1e-6, "numbers"),
    "far from the origin": Case(lambda: far_out(BALL, [500.0, -300.0, 0.0]), _volume(BALL), 2e-3, "far"),
    "lost in its digits": Case(lambda: far_out(BALL, [1e5, 0.0, 0.0]), kind="digits"),
    "wrong unit": Case(lambda: Mesh(CUBE.vertices / 1000, CUBE.faces), kind="size"),
}  # fmt: skip


def write_case(name, folder):
    """Write one file; its numbers are millimetres."""
    case = CASES[name]
    path = Path(folder) / (name.replace(" ", "-") + case.ending)
    mesh = case.make()
    WRITERS[case.ending](path, Mesh(mesh.vertices * MM, mesh.faces))
    return path


def _stl(path, mesh):
    records = np.zeros(
        len(mesh.faces), dtype=[("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("more", "<u2")]
    )
    records["corners"] = mesh.triangles
    path.write_bytes(b"a faulty shape".ljust(80) + struct.pack("<I", len(records)) + records.tobytes())


def _obj(path, mesh):
    lines = [f"v {x!r} {y!r} {z!r}" for x, y, z in mesh.vertices.tolist()]
    lines += [f"f {a} {b} {c}" for a, b, c in (mesh.faces + 1).tolist()]
    path.write_text("\n".join(lines) + "\n")


def _ply(path, mesh):
    trimesh.Trimesh(mesh.vertices, mesh.faces, process=False).export(path, encoding="binary")


WRITERS = {".stl": _stl, ".obj": _obj, ".ply": _ply}


if __name__ == "__main__":
    target = Path(sys.argv[1])
    target.mkdir(parents=True, exist_ok=True)
    for case_name in CASES:
        print(write_case(case_name, target))  # noqa: T201 - a script
