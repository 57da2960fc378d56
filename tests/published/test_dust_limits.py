"""Limits for dust in the air of a workplace, United States, as printed with the cautions.

I08: 29 CFR 1910.1000 Table Z-1, 15 mg/m3 in all (read for 1926.55), 5 respirable (from memory). I09: 29 CFR
1910.1053, 50 ug/m3 (read on a secondary page), action level 25 (from memory). Exact.
"""

from pourwright.fill.mineral_defaults import DUST


def test_nuisance_dust():
    # I08
    assert (DUST["nuisance"].value, DUST["nuisance"].unit) == (15.0, "mg/m3")
    assert (DUST["nuisance_fine"].value, DUST["nuisance_fine"].unit) == (5.0, "mg/m3")


def test_crystalline_silica():
    # I09
    assert (DUST["silica"].value, DUST["silica"].unit) == (50.0, "ug/m3")
    assert (DUST["silica_action"].value, DUST["silica_action"].unit) == (25.0, "ug/m3")
