"""Voids between grains, and the sieves that name them.

C09: ASTM C29/C29M, voids = 100 (S W - M)/(S W) with W = 998 kg/m3 (formula from memory); closed
form; 0.05 percentage points. C11: ASTM E11 Table 1; the openings are keys of an open-source copy
of the table (fluids 1.3.1); exact. The standards were not before us.
"""

import tomllib
from fractions import Fraction
from importlib.resources import files

import pytest

from pourwright.physics.packing import void_content

# C11
SIEVES = {
    "1 in": "25",
    "3/4 in": "19",
    "1/2 in": "12.5",
    "3/8 in": "9.5",
    "1/4 in": "6.3",
    "No. 4": "4.75",
    "No. 8": "2.36",
    "No. 10": "2.0",
    "No. 16": "1.18",
    "No. 20": "0.85",
    "No. 30": "0.6",
    "No. 40": "0.425",
    "No. 50": "0.3",
    "No. 100": "0.15",
    "No. 200": "0.075",
}


def openings():
    text = files("pourwright").joinpath("data", "sieves.toml").read_text("utf8")
    rows = tomllib.loads(text)["sieve"]
    return {row["name"]: Fraction(row["opening"].removesuffix(" mm")) for row in rows}


def test_void_content_by_bulk_density():
    # C09
    assert 100 * void_content(1350.0, 2.5) == pytest.approx(45.8918, abs=0.05)


@pytest.mark.parametrize("name", sorted(SIEVES))
def test_sieve_opening(name):
    # C11
    assert openings()[name] == Fraction(SIEVES[name])


def test_sieves_stand_widest_first_and_none_twice():
    widths = list(openings().values())
    assert widths == sorted(set(widths), reverse=True)
