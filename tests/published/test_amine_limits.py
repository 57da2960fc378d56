"""Limits for amine hardeners in the air of a workplace, United States, as printed with the cautions.

I10, I11: NIOSH Manual of Analytical Methods, method 2540 (1994), table 1, from memory; exact.
"""

from pourwright.fill.mixing import AMINES, WITHOUT_A_LIMIT


def test_diethylenetriamine():
    # I10: 1 ppm by OSHA (1989), NIOSH and ACGIH, with a note on skin
    limit = AMINES["diethylenetriamine"]
    assert (limit.value, limit.unit) == (1.0, "ppm")
    assert "skin" in limit.conditions


def test_triethylenetetramine_has_none():
    # I11: none by OSHA, NIOSH and ACGIH
    assert "triethylenetetramine" in WITHOUT_A_LIMIT
    assert "triethylenetetramine" not in AMINES
