"""All parts moved apart: what a part in front covers is not drawn, the far edges of a block neither."""

import re
from itertools import product
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from pourwright.geometry import Mesh, box
from pourwright.jobs.mold_bodies import BodyPart
from pourwright.sheets.exploded_drawing import TOWARD, Piece, draw_exploded
from pourwright.sheets.wording import Wording
from tests.sheets.sample_plan import sample_plan

WORDS = Wording(sample_plan().job)


def piece(number: int, mesh: Mesh) -> Piece:
    low, high = mesh.bounds
    size = tuple(high - low)
    part = BodyPart(
        number=number,
        kind="panel",
        name=f"board {number}",
        count=1,
        size_m=size,
        volume_m3=float(np.prod(size)),
    )
    return Piece(part, mesh)


def lines_of(svg: str) -> list[np.ndarray]:
    """The black lines of each part: corners on paper."""
    paths = ET.fromstring(svg).iter("{http://www.w3.org/2000/svg}path")
    data = [path.get("d", "") for path in paths if path.get("fill") == "none"]
    return [np.array(re.findall(r"(-?[\d.]+)[ ,](-?[\d.]+)", each), dtype=float) for each in data]


def flat(points: np.ndarray) -> np.ndarray:
    """Seen from TOWARD without perspective, z up: to the right, and down the paper."""
    ray = np.array(TOWARD) / np.linalg.norm(TOWARD)
    right = np.cross([0.0, 0.0, 1.0], ray)
    right /= np.linalg.norm(right)
    return np.column_stack([points @ right, -points @ np.cross(ray, right)])


def test_the_three_far_edges_of_a_block_are_not_drawn() -> None:
    """Of the eight corners of a block one is behind it: the one farthest from who looks."""
    sides = (0.3, 0.2, 0.1)
    (drawn,) = lines_of(draw_exploded([piece(1, box(sides))], "Block", WORDS))
    corners = np.array(list(product((-0.15, 0.15), (-0.1, 0.1), (0.0, 0.1))))
    paper = flat(corners)
    scale = (drawn.max(axis=0) - drawn.min(axis=0)) / (paper.max(axis=0) - paper.min(axis=0))
    assert scale[0] == pytest.approx(scale[1], rel=0.01)
    paper = (paper - paper.min(axis=0)) * scale + drawn.min(axis=0)
    gaps = [np.linalg.norm(drawn - corner, axis=1).min() for corner in paper]
    behind = int(np.argmin(corners @ np.array(TOWARD)))
    assert gaps[behind] > 10.0
    assert max(gap for at, gap in enumerate(gaps) if at != behind) < 1.5


def test_a_part_behind_a_board_is_not_drawn_and_its_number_says_so() -> None:
    """From the middle of the board straight away from who looks: wholly covered."""
    board, block = box([0.6, 0.02, 0.6]), box([0.06, 0.06, 0.06])
    away = -0.3 * np.array(TOWARD) / np.linalg.norm(TOWARD)
    covered = block.moved(np.add(away, [0.0, 0.0, 0.27]))
    for svg, count in (
        (draw_exploded([piece(1, board), piece(2, covered)], "Box", WORDS), 1),
        (draw_exploded([piece(1, board), piece(2, covered.moved([0.0, 0.0, 0.9]))], "Box", WORDS), 2),
    ):
        assert len(lines_of(svg)) == count
        dots = [each.get("fill") for each in ET.fromstring(svg).iter("{http://www.w3.org/2000/svg}circle")]
        small = dots[::2]
        assert len(small) == 2
        assert len(set(small)) == 3 - count
