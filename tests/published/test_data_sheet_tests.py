"""The tests that data sheets name, and the load on a heat-deflection bar.

E12: definitions of the standards named, from memory; the manual's page and the table of methods
are held to them. E13: F = 2 sigma b h^2 / (3 L), closed form; bar and span from memory; 1e-4.
"""

from pathlib import Path

import pytest

from pourwright.physics.heat_deflection import METHODS, deflection_load

PAGE = Path(__file__).parents[2] / "docs" / "data-sheet.md"
# the words of a data sheet, with what their row must say
SAID = [
    pytest.param(
        "gel time, peak", ["ASTM D2471", "withdrawn", "100 g", "23 degC", "no longer picks up"], id="E12 gel"
    ),
    pytest.param("gel time, other", ["ISO 9396 (phenolic)", "ISO 2535 (polyester)"], id="E12 ISO gel"),
    pytest.param("pot life", ["ISO 10364", "EN 14022", "adhesives"], id="E12 pot life"),
    pytest.param(
        "heat-deflection", ["ISO 75-2", "120 K/h", "1.80 MPa (method A)", "0.45 MPa (B)", "8.00 MPa (C)"],
        id="E12 HDT",
    ),
    pytest.param("the same, American", ["ASTM D648", "2 K/min", "1.82 MPa", "0.455 MPa"], id="E12 HDT ASTM"),
    pytest.param("Shore", ["ISO 868", "ASTM D2240", "ISO 48-4"], id="E12 Shore"),
    pytest.param("glass transition", ["ISO 11357-2 (DSC)"], id="E12 Tg"),
]  # fmt: skip


@pytest.mark.parametrize(("word", "said"), SAID)
def test_the_manual_names_the_test(word, said):
    rows = [line for line in PAGE.read_text("utf8").splitlines() if line.startswith(f"| {word}")]
    assert len(rows) == 1
    assert [each for each in said if each not in rows[0]] == []


@pytest.mark.parametrize(
    ("method", "stress", "kelvin_per_hour"),
    [
        pytest.param("ISO 75 A", 1.80e6, 120.0, id="E12 A"),
        pytest.param("ISO 75 B", 0.45e6, 120.0, id="E12 B"),
        pytest.param("ISO 75 C", 8.00e6, 120.0, id="E12 C"),
        pytest.param("ASTM D648 high", 1.82e6, 120.0, id="E12 ASTM high"),
        pytest.param("ASTM D648 low", 0.455e6, 120.0, id="E12 ASTM low"),
    ],
)
def test_heat_deflection_methods(method, stress, kelvin_per_hour):
    assert METHODS[method].stress == pytest.approx(stress, rel=1e-12)
    assert METHODS[method].heating_rate * 3600 == pytest.approx(kelvin_per_hour, rel=1e-12)


def test_load_on_the_bar():
    # E13: method A, span 64 mm, 10 x 4 mm
    load = deflection_load(METHODS["ISO 75 A"].stress, 0.064, 0.010, 0.004)
    assert load == pytest.approx(3.0, rel=1e-4)
