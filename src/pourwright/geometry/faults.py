"""What makes a mesh no body that could be cast, each fault with its place."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from pourwright.foundation.errors import UserError
from pourwright.geometry.columns import winding_range
from pourwright.geometry.connectivity import Edges, body_labels, edges_of
from pourwright.geometry.files.formats import LENGTHS
from pourwright.geometry.mesh import Floats, Integers, Mesh
from pourwright.geometry.row_kernels import number_rows, signed_volumes, thin_faces
from pourwright.geometry.welding import welded

SMALLEST, LARGEST = 1e-3, 10.0
THINNEST = 0.5e-3
_FINEST = {"mm": 3, "cm": 4, "m": 6, "in": 4, "ft": 5}
Truths = npt.NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class Fault:
    """One thing wrong with a mesh.

    Parameters
    ----------
    kind : str
        One of empty, nan, digits, size, doubled, open, non-manifold, touching, one-sided, flipped, flat,
        inverted, overlapping, crossing, loose, bodies, degenerate.
    message : str
        What is wrong, without the place.
    place : array (3,) or None
        Where it was found first [m].
    count : int
        How many places.
    refused : bool
        Whether the shape cannot be used; degenerate triangles in a sound surface do no harm.
    todo : str
        What to do about it.
    lengths : tuple of float
        Lengths that ``{0}``, ``{1}`` in the message stand for [m]; ``{u}`` is their unit.
    places : array (n, 3), optional
        Everywhere it was found, to be drawn [m].
    """

    kind: str
    message: str
    place: Floats | None = None
    count: int = 1
    refused: bool = True
    todo: str = "mend the shape in the program that made it"
    lengths: tuple[float, ...] = ()
    places: Floats | None = None

    def sentence(self, unit: str = "mm") -> str:
        """Say the fault with its place in the maker's unit.

        Parameters
        ----------
        unit : str
            A unit of length of the job file.

        Returns
        -------
        str

        Examples
        --------
        >>> Fault("open", "the surface is open", np.array([0.0254, 0.0, 0.0508])).sentence("in")
        'the surface is open near x = 1, y = 0, z = 2 in'
        """
        return near(self.message, self.place, unit, self.lengths)


def near(message: str, place: Floats | None, unit: str, lengths: Sequence[float] = ()) -> str:
    """Say something with its place, in the maker's unit.

    Parameters
    ----------
    message : str
        What there is; ``{0}``, ``{1}`` stand for lengths, ``{u}`` for the unit.
    place : array (3,) or None
        Where [m].
    unit : str
        A unit of length of the job file.
    lengths : sequence of float
        What goes into the message [m].

    Returns
    -------
    str

    Examples
    --------
    >>> near("a hole {0} {u} wide", None, "mm", [0.0254])
    'a hole 25.4 mm wide'
    """
    factor = float(LENGTHS[unit])
    numbers = [_positional(float(f"{length / factor:.4g}")) for length in lengths]
    said = message.format(*numbers, u=unit) if lengths else message
    if place is None:
        return said
    x, y, z = (_positional(_shown(n / factor, unit)) for n in place)
    return f"{said} near x = {x}, y = {y}, z = {z} {unit}"


def _positional(value: float) -> str:
    return np.format_float_positional(value + 0.0, trim="-")


def _shown(value: float, unit: str) -> float:
    """Five digits, tenths of a body that lies far out, and thousandths of a millimetre at the finest."""
    short = float(f"{value:.5g}") if abs(value) < 1e4 else round(value, 1)
    return round(short, _FINEST[unit])


def find_faults(mesh: Mesh) -> tuple[Fault, ...]:
    """Look for everything that keeps a mesh from being one closed body.

    Parameters
    ----------
    mesh : Mesh
        As read [m].

    Returns
    -------
    tuple of Fault
        Empty for a sound body; the gravest first. A cavity, a nested surface of opposite orientation, is
        no fault.

    Notes
    -----
    Overlaps are looked for on 256 x 256 columns along each axis; a smaller one may be missed.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> find_faults(box([0.2, 0.2, 0.2]))
    ()
    >>> [fault.kind for fault in find_faults(box([0.2, 0.2, 0.2]).reversed())]
    ['inverted']
    """
    numbers = _not_numbers(mesh)
    if numbers:
        return numbers
    # a soup of triangles is no fault: STL knows nothing else
    whole = welded(mesh)
    if not len(whole.faces):
        return (Fault("empty", "the shape has no triangles", todo="export it as a mesh"),)
    edges = edges_of(whole)
    faults = [*_size(whole), *_doubled(whole), *_edge_faults(whole, edges)]
    if not faults or all(fault.kind == "size" for fault in faults):
        # what is enclosed has a meaning only where the surface is closed
        labels = body_labels(whole, edges)
        volumes = _body_volumes(whole, labels)
        faults += _flat(whole, volumes) or [*_overlaps(whole), *_bodies(whole, labels, volumes)]
    return (*faults, *_degenerate(whole))


def refuse_faults(mesh: Mesh, name: str, unit: str | None = None) -> None:
    """Refuse a mesh that is no single closed body.

    Parameters
    ----------
    mesh : Mesh
        As read [m].
    name : str
        What to call it: the file's name.
    unit : str, optional
        The maker's unit for places; mm when left out.

    Raises
    ------
    UserError
        For the gravest fault, with its place and the kinds of the others.

    Examples
    --------
    >>> from pourwright.geometry import box
    >>> refuse_faults(box([0.2, 0.2, 0.2]).reversed(), "part.stl")
    Traceback (most recent call last):
    pourwright.foundation.errors.UserError: part.stl: the surface is inside out...
    """
    grave = [fault for fault in find_faults(mesh) if fault.refused]
    if not grave:
        return
    others = ", ".join(dict.fromkeys(fault.kind for fault in grave[1:] if fault.kind != grave[0].kind))
    also = f" (also: {others})" if others else ""
    raise UserError(grave[0].sentence(unit or "mm") + also, where=name, todo=grave[0].todo)


def _counted(count: int, one: str, many: str) -> str:
    return f"1 {one}" if count == 1 else f"{count} {many}"


def _not_numbers(mesh: Mesh) -> tuple[Fault, ...]:
    if np.isfinite(mesh.vertices).all():
        return ()
    broken = ~np.isfinite(mesh.vertices).all(axis=1)
    count = int(broken.sum())
    words = _counted(count, "corner has", "corners have")
    first = int(np.flatnonzero(broken)[0]) + 1
    return (
        Fault("nan", f"{words} coordinates that are no numbers, first corner number {first}", count=count),
    )


def _size(mesh: Mesh) -> list[Fault]:
    lower, upper = mesh.bounds
    size = float((upper - lower).max())
    hint = "check the unit: it may not be the one the shape was drawn in"
    if size < SMALLEST:
        return [Fault("size", f"the shape is only {1000 * size:.3g} mm large", todo=hint)]
    if size > LARGEST:
        return [Fault("size", f"the shape is {size:.4g} m large", todo=hint)]
    thickness = float((upper - lower).min())
    if 0 < thickness < THINNEST:
        todo = "give it a thickness that can be cast"
        return [Fault("size", f"the shape is only {1000 * thickness:.2g} mm thick", todo=todo)]
    return []


def _doubled(mesh: Mesh) -> list[Fault]:
    corners, number = np.sort(mesh.faces, axis=1), np.empty(len(mesh.faces), dtype=np.int64)
    first = number_rows(corners, np.zeros(len(corners), dtype=bool), number)
    if len(first) == len(corners):
        return []
    counts = np.bincount(number)
    again = counts > 1
    count = int((counts[again] - 1).sum())
    place = mesh.triangles[first[again].min()].mean(axis=0)
    words = _counted(count, "triangle lies on another", "triangles lie on others")
    message = f"{words}: the body, or a part of its wall, is there twice; first"
    return [Fault("doubled", message, place, count, todo="delete the second copy")]


def _edge_faults(mesh: Mesh, edges: Edges) -> list[Fault]:
    """Sort edges by what is wrong with them: used once, more than twice, or twice in the same direction."""
    kinds: tuple[tuple[str, Callable[[Edges], Truths], str, str, str], ...] = (
        ("open", lambda e: e.uses == 1, "the surface is open: {n} not closed, first", "edge is", "edges are"),
        (
            "non-manifold", lambda e: e.uses > 2,
            "walls meet wrongly: {n} shared by more than two triangles, first", "edge is", "edges are",
        ),
        (
            "flipped", lambda e: (e.uses == 2) & (e.direction != 0),
            "some triangles face the wrong way: {n} between opposite ones, first", "edge lies", "edges lie",
        ),
    )  # fmt: skip
    faults = []
    for kind, test, message, one, many in kinds:
        wrong = test(edges)
        count = int(wrong.sum())
        if count:
            ends = edges.ends[wrong][np.argmin(edges.first_face[wrong])]
            place = mesh.vertices[ends].mean(axis=0)
            faults.append(Fault(kind, message.format(n=_counted(count, one, many)), place, count))
    return faults


def _body_volumes(mesh: Mesh, labels: Integers) -> Floats:
    volumes = np.zeros(int(labels.max()) + 1)
    signed_volumes(mesh.vertices, mesh.faces, labels, mesh.bounds.mean(axis=0), volumes)
    return volumes


def _flat(mesh: Mesh, volumes: Floats) -> list[Fault]:
    size = float((mesh.bounds[1] - mesh.bounds[0]).max())
    if np.abs(volumes).max() > 1e-12 * size * size * size:
        return []
    return [
        Fault("flat", "the shape encloses no volume", mesh.bounds.mean(axis=0), todo="give it a thickness")
    ]


def _bodies(mesh: Mesh, labels: Integers, volumes: Floats) -> list[Fault]:
    """Refuse a surface that is inside out, or several bodies; nested cavities are sound."""
    solid = np.flatnonzero(volumes > 0)
    # a body that is inside out has a cavity that is not
    if volumes.sum() <= 0:
        message = "the surface is inside out: its volume comes out negative"
        return [Fault("inverted", message, todo="turn the normals outward in the program that made it")]
    if solid.size > 1:
        second = Mesh(mesh.vertices, mesh.faces[labels == solid[1]])
        message = f"there are {solid.size} separate bodies, the second one"
        todo = "save the one to be cast alone, or join them"
        return [Fault("bodies", message, second.bounds.mean(axis=0), int(solid.size), todo=todo)]
    return []


def _overlaps(mesh: Mesh) -> list[Fault]:
    faults: list[Fault] = []
    for axis in range(3):
        found = winding_range(mesh, axis)
        if found.highest > 1 and not any(fault.kind == "overlapping" for fault in faults):
            message = f"the body overlaps itself: space is enclosed {found.highest} times"
            todo = "join the overlapping parts into one body"
            faults.append(Fault("overlapping", message, found.highest_place, todo=todo))
        inside_out = found.lowest < 0 and found.highest > 0
        if inside_out and not any(fault.kind == "inverted" for fault in faults):
            message = "a part of the surface is inside out or crosses itself"
            faults.append(Fault("inverted", message, found.lowest_place))
    return faults


def _degenerate(mesh: Mesh) -> list[Fault]:
    thin = thin_faces(mesh.vertices, mesh.faces, 1e-12)
    if not thin.size:
        return []
    count = len(thin)
    place = mesh.vertices[mesh.faces[thin[0]]].mean(axis=0)
    words = _counted(count, "triangle has", "triangles have")
    return [Fault("degenerate", f"{words} no area, first", place, count, refused=False)]
