"""Where air is let in under a piece, so that suction lets go of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import cos, sin
from typing import Literal

import numpy as np

from pourwright.geometry import Mesh
from pourwright.geometry.ways_up.around import Around
from pourwright.geometry.ways_up.held import Held
from pourwright.mold.way_out.cut import Cut

InletKind = Literal["mouth", "cut", "floor", "core"]
Point = tuple[float, float, float]
LEVEL = 1e-6
"""How far from level a floor may lie [m]."""


@dataclass(frozen=True, slots=True)
class Inlet:
    """One place where air goes in.

    Parameters
    ----------
    kind : str
        "mouth", along the rim; "cut", at the foot of a cut; "floor", through or with the rubber's floor;
        "core", at the top of rubber that stands in a hollow of the piece.
    place : tuple of float
        On the piece [m].
    way : tuple of float
        Unit vector that the air goes along.
    """

    kind: InletKind
    place: Point
    way: Point


def inlets(mesh: Mesh, around: Around, cuts: Sequence[Cut], cores: Sequence[Held]) -> tuple[Inlet, ...]:
    """Find where air is let in.

    Parameters
    ----------
    mesh : Mesh
        The piece as it is cast.
    around : Around
        Rubber round it.
    cuts : sequence of Cut
        None where the rubber stays whole.
    cores : sequence of Held
        Rubber in hollows of the piece that open downward.

    Returns
    -------
    tuple of Inlet
        The mouth first, then the lowest place that is got at; every core has its own.
    """
    return (_mouth(mesh), *(_below(mesh, around, cuts)), *(_core(core) for core in cores))


def floor_area(mesh: Mesh) -> float:
    """Level part of a piece's underside that lies on the mold's floor [m2]."""
    lowest = mesh.bounds[0, 2] + LEVEL
    flat = (mesh.triangles[:, :, 2] <= lowest).all(axis=1)
    return float(-mesh.area_vectors[flat, 2].sum())


def _mouth(mesh: Mesh) -> Inlet:
    top = mesh.vertices[mesh.vertices[:, 2] >= mesh.bounds[1, 2] - LEVEL]
    x, y, z = (float(value) for value in top[int(top[:, 0].argmax())])
    return Inlet("mouth", (x, y, z), (0.0, 0.0, -1.0))


def _below(mesh: Mesh, around: Around, cuts: Sequence[Cut]) -> Iterator[Inlet]:
    for cut in cuts:
        line = around.line(cut.angle, cut.ends_at)
        if len(line):
            x, y, z = (float(value) for value in line[0])
            yield Inlet("cut", (x, y, z), (-cos(cut.angle), -sin(cut.angle), 0.0))
    if not cuts:
        low = mesh.vertices[mesh.vertices[:, 2] <= mesh.bounds[0, 2] + LEVEL]
        x, y = (float(value) for value in np.mean([low.min(axis=0), low.max(axis=0)], axis=0)[:2])
        yield Inlet("floor", (x, y, float(mesh.bounds[0, 2])), (0.0, 0.0, 1.0))


def _core(core: Held) -> Inlet:
    x, y, z = (float(value) for value in core.place)
    return Inlet("core", (x, y, z), (0.0, 0.0, 1.0))
