"""A fitted resin goes into the shop's materials folder and comes back as it was fitted."""

import pytest

from pourwright.calibration.fitting import Question, fit
from pourwright.calibration.parameters import load_priors
from pourwright.calibration.record import Told, record_text
from pourwright.foundation.sources import Kind, load_sources
from pourwright.materials import load_materials
from tests.calibration.invented import DENSITY, invented_resin, sheet_of

NAMES = ("gel time", "glass transition")


@pytest.fixture(scope="module")
def pair(tmp_path_factory):
    base = load_materials().resin["epoxy-slow-deep"]
    found = fit(
        Question(load_priors()["epoxy-slow-deep"], sheet_of(invented_resin(speed=0.8), NAMES), DENSITY)
    )
    folder = tmp_path_factory.mktemp("shop")
    (folder / "materials").mkdir()
    told = Told("river-resin", 'River "resin"', base, "invented sheet", {"density": DENSITY, "parts_b": 33.0})
    (folder / "materials" / "resin.toml").write_text(record_text(found, told), "utf8")
    return found, load_materials(folder).resin["river-resin"]


def test_the_record_is_the_fit(pair):
    found, record = pair
    law, resin = record.cure, found.resin
    for name in (
        "frequency_1",
        "activation_energy_1",
        "frequency_2",
        "activation_energy_2",
        "order_m",
        "order_n",
    ):
        assert getattr(law, name).value == pytest.approx(getattr(resin.law, name), rel=1e-6)
    assert law.glass_transition_full.value == pytest.approx(resin.law.glass_transition_full, rel=1e-6)
    assert record.heat_of_reaction.value == pytest.approx(resin.heat_of_reaction, rel=1e-6)
    assert record.density.value == DENSITY
    assert record.parts_b.value == 33.0
    assert record.name == 'River "resin"'


def test_the_record_says_which_numbers_are_whose(pair):
    _, record = pair
    assert record.density.source == "data-sheet"
    assert record.cure.frequency_2.kind is Kind.PUBLISHED
    # nothing in this sheet speaks of conductivity
    assert record.conductivity.source == "en-iso-10456"
    numbers = [record.density, record.cure.frequency_2, record.conductivity, record.cure_shrinkage]
    assert all(number.source in load_sources() for number in numbers)
    assert all(number.low <= number.value <= number.high for number in numbers)
