"""A resin's doubts: from its fit into the record and back, from its family, and what a member is."""

import dataclasses

import numpy as np
import pytest
from hypothesis import given, settings, strategies as st

from pourwright.calibration.doubts import doubts_of, member, origin_of
from pourwright.calibration.fitting import Question, fit
from pourwright.calibration.parameters import NAMES, PLACE, load_priors, resin_of
from pourwright.calibration.record import Told, record_text
from pourwright.foundation.errors import UserError
from pourwright.foundation.sources import Sourced
from pourwright.materials import Doubts, load_materials
from pourwright.pour.site import cure_law
from tests.calibration.invented import DENSITY, invented_resin, sheet_of

GENERIC = load_materials().resin["epoxy-slow-deep"]
OWN = slice(0, PLACE["film"])


@pytest.fixture(scope="module")
def pair(tmp_path_factory):
    sheet = sheet_of(invented_resin(speed=0.8, heat_of_reaction=-0.5), ("gel time", "peak"))
    found = fit(Question(load_priors()["epoxy-slow-deep"], sheet, DENSITY))
    folder = tmp_path_factory.mktemp("shop")
    (folder / "materials").mkdir()
    told = Told("river-resin", "River resin", GENERIC, "invented sheet", {"density": DENSITY})
    (folder / "materials" / "resin.toml").write_text(record_text(found, told), "utf8")
    return found, load_materials(folder).resin["river-resin"]


def numbers(record) -> dict[str, float]:
    """Every number of a record, those of its cure too."""
    found = {}
    for item in dataclasses.fields(record):
        value = getattr(record, item.name)
        if isinstance(value, Sourced):
            found[item.name] = value.value
        elif item.name == "cure":
            found |= numbers(value)
    return found


def test_a_fitted_record_carries_its_covariance(pair):
    found, record = pair
    doubts, prior = doubts_of(record), found.question.prior
    assert origin_of(record) == "fit"
    assert doubts.names == NAMES
    scale = np.outer(prior.deviation, prior.deviation)
    ours, theirs = np.array(doubts.covariance) / scale, found.covariance[: len(NAMES), : len(NAMES)]
    assert ours[OWN, OWN] == pytest.approx(theirs[OWN, OWN], abs=1e-8)
    assert np.array(doubts.mean)[OWN] == pytest.approx(
        (prior.mean + prior.deviation * found.deviates[: len(NAMES)])[OWN], rel=1e-8
    )


def test_the_film_of_the_tested_cup_is_not_that_of_the_mold(pair):
    _, record = pair
    doubts, prior = doubts_of(record), load_priors()["epoxy-slow-deep"]
    place = PLACE["film"]
    assert doubts.mean[place] == 0.0
    assert doubts.covariance[place][place] == pytest.approx(prior.deviation[place] ** 2)
    assert np.count_nonzero(doubts.covariance[place]) == 1


def test_a_member_of_a_fit_is_the_resin_that_the_fit_would_give(pair):
    found, record = pair
    prior, chance = found.question.prior, np.random.default_rng(3)
    root = np.linalg.cholesky(np.array(doubts_of(record).covariance))
    for deviates in chance.normal(size=(20, len(NAMES))):
        moved, film = member(record, deviates)
        vector = prior.mean + prior.deviation * found.deviates[: len(NAMES)] + root @ deviates
        expected = resin_of(vector, DENSITY)
        assert cure_law(moved.cure).row[:10] == pytest.approx(expected.law.row[:10], rel=1e-5, abs=1e-4)
        assert moved.heat_of_reaction.value == pytest.approx(expected.heat_of_reaction, rel=1e-6)
        assert moved.cure.gel_conversion.value == pytest.approx(expected.gel, rel=1e-6)
        assert film == pytest.approx(np.exp(root[-1] @ deviates))


@pytest.mark.parametrize("name", sorted(load_priors()))
def test_with_nothing_in_doubt_a_member_is_the_record_itself(name):
    record = load_materials().resin[name]
    same, film = member(record, np.zeros(len(NAMES)))
    assert same == record
    assert film == 1.0
    assert origin_of(record) == "family"


@given(st.integers(0, 10000))
@settings(max_examples=50, deadline=None)
def test_every_member_is_a_resin(seed):
    deviates = np.random.default_rng(seed).normal(size=len(NAMES)) * 2.0
    moved, film = member(GENERIC, deviates)
    found = numbers(moved)
    assert film > 0.0
    assert all(np.isfinite(value) for value in found.values())
    assert found["glass_transition_full"] >= found["glass_transition_start"] + 5.0
    assert 0.0 < found["glass_transition_lambda"] <= 1.0
    assert 0.0 < found["gel_conversion"] <= 0.95
    # what no fit speaks of stays
    kept = numbers(GENERIC)
    assert {name for name in kept if found[name] != kept[name]} <= {
        "frequency_1", "activation_energy_1", "frequency_2", "activation_energy_2", "order_m", "order_n",
        "heat_of_reaction", "heat_capacity", "conductivity", "glass_transition_full", "gel_conversion",
        "glass_transition_start", "glass_transition_lambda", "diffusion_offset",
    }  # fmt: skip


def test_one_deviation_of_the_speed_is_that_of_the_family():
    prior = load_priors()["epoxy-slow-deep"]
    faster, _ = member(GENERIC, np.eye(len(NAMES))[PLACE["speed"]])
    ratio = faster.cure.frequency_2.value / GENERIC.cure.frequency_2.value
    assert ratio == pytest.approx(np.exp(prior.deviation[PLACE["speed"]]))
    # 80 % of a family lie between the ends of its band
    low, high = prior.numbers["speed"].low, prior.numbers["speed"].high
    assert ratio**2.5631031 == pytest.approx(high / low, rel=1e-6)


def test_a_shop_record_of_a_known_family_has_its_doubts():
    own = dataclasses.replace(GENERIC, id="river", name="River")
    assert doubts_of(own) == doubts_of(GENERIC)
    assert origin_of(own) == "family"


def test_a_record_of_no_known_family_is_as_open_as_the_least_known():
    other = dataclasses.replace(GENERIC, id="river", family="polyester")
    assert origin_of(other) == "widest"
    widest = np.diag(np.array(doubts_of(other).covariance))
    for prior in load_priors().values():
        assert np.all(widest >= prior.deviation**2)
    assert member(other, np.zeros(len(NAMES))).resin == other


def test_a_shop_may_tell_of_some_numbers_only():
    told = Doubts(family="epoxy-slow-deep", names=("speed",), mean=(-11.0,), covariance=((0.01,),))
    found = doubts_of(dataclasses.replace(GENERIC, doubts=told))
    family = doubts_of(GENERIC)
    assert found.mean[PLACE["speed"]] == -11.0
    assert found.covariance[PLACE["speed"]][PLACE["speed"]] == pytest.approx(0.01)
    assert found.covariance[1:] == family.covariance[1:]


@pytest.mark.parametrize(
    ("names", "family", "says"),
    [
        (("sped",), "epoxy-slow-deep", "no fitted number is called 'sped'"),
        (("speed",), "polyester", "no family"),
    ],
)
def test_doubts_of_what_is_not_known_are_refused(names, family, says):
    told = Doubts(family=family, names=names, mean=(0.0,), covariance=((1.0,),))
    with pytest.raises(UserError, match=says):
        doubts_of(dataclasses.replace(GENERIC, doubts=told))
