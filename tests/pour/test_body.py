"""A piece cut by the same grid twice is cut once, and gives what cutting it anew gives."""

from __future__ import annotations

import pickle
from dataclasses import fields, replace

import numpy as np
import pytest

from pourwright.geometry import Mesh, cone
from pourwright.pour import body
from pourwright.pour.layout import Layout, lay_out
from tests.pour.blocks import block_site


def layout_of(piece: Mesh, *, bare: bool = False) -> Layout:
    return lay_out(replace(block_site(0.06, 0.08), piece=piece, bare=bare), 0.01, (0.03, 0.06))


def arrays(layout: Layout) -> list[object]:
    parts = [getattr(part, field.name) for part in (layout.wall, layout.parts) for field in fields(part)]
    return [layout.cavity, *parts]


@pytest.mark.parametrize("bare", [False, True])
def test_a_second_site_with_the_same_piece_gets_the_same_cells(
    bare: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    piece = cone(0.08, 0.05, 0.06, 24)
    first, second = layout_of(piece, bare=bare), layout_of(piece, bare=bare)
    assert all(one is other for one, other in zip(arrays(first), arrays(second), strict=True))
    sent = layout_of(pickle.loads(pickle.dumps(piece)), bare=bare)
    assert sent.cavity is first.cavity
    # a grid that counts as large is cut anew
    monkeypatch.setattr(body, "SMALL", 0)
    anew = layout_of(piece, bare=bare)
    for one, other in zip(arrays(first), arrays(anew), strict=True):
        assert one is not other
        assert np.array_equal(one, other)  # type: ignore[arg-type]


def test_another_piece_of_the_same_size_is_cut_for_itself() -> None:
    block, slanting = cone(0.08, 0.08, 0.06, 24), cone(0.08, 0.05, 0.06, 24)
    one, other = layout_of(block), layout_of(slanting)
    volumes = [float((each.cavity * each.grid.cell_volumes).sum()) for each in (one, other)]
    assert volumes[1] < 0.75 * volumes[0]
    assert one.cavity.shape == other.cavity.shape
