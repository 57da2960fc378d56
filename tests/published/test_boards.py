"""Boards in bending.

D28: EN 622-5 table 3, MDF over 12 to 19 mm: 20 and 2,200 N/mm2; from memory.
D29: EN 312:2010, furniture particleboard over 13 to 20 mm: 11 and 1,600 N/mm2; from memory.
D30: Wood Handbook GTR-190 (2010) table 12-3, OSB of southern pine, mill 1: 4.41 GPa along and 2.89 GPa across
the strands, 23.8 and 24.2 MPa; read in a public copy.
"""

import pytest

from pourwright.materials.loading import load_materials


@pytest.mark.parametrize(
    ("board", "modulus", "strength"),
    [
        ("mdf", 2200e6, 20e6),  # D28
        ("melamine-board", 1600e6, 11e6),  # D29
    ],
)
def test_board_as_its_standard_asks(board: str, modulus: float, strength: float) -> None:
    record = load_materials().board[board]
    assert record.bending_modulus.value == modulus
    assert record.bending_strength.value == strength


def test_osb_bends_as_its_weaker_way() -> None:
    # D30
    record = load_materials().board["osb"]
    assert record.bending_modulus.value == 2.89e9
    assert record.bending_modulus.high == 4.41e9
    assert record.bending_strength.value == min(23.8e6, 24.2e6)
    assert record.bending_modulus.kind == "published"
