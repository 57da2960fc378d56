"""A planted error is found: the pairs it makes, and what the other facts say in its place."""

import pytest

from pourwright.calibration.answers import questions
from pourwright.calibration.fitting import Question, settle
from pourwright.calibration.influence import contradictions, leave_one_out, unusual
from pourwright.calibration.mixed import Mix
from pourwright.calibration.parameters import load_priors
from tests.calibration.invented import DENSITY, invented_resin, sheet_of

PRIOR = load_priors()["epoxy-slow-deep"]
NAMES = ("gel time", "tack-free", "peak", "glass transition")
WRONG = 3.0


@pytest.fixture(scope="module")
def right():
    return settle(Question(PRIOR, sheet_of(invented_resin(speed=0.5), NAMES), DENSITY))


@pytest.fixture(scope="module")
def wrong():
    facts = sheet_of(invented_resin(speed=0.5), NAMES, gel_time=WRONG)
    return settle(Question(PRIOR, facts, DENSITY))


def test_a_sheet_that_agrees_has_no_contradictions(right):
    assert contradictions(right) == []
    assert unusual(right.question) == []


def test_a_wrong_fact_is_in_every_pair_that_contradicts(wrong):
    pairs = contradictions(wrong)
    assert pairs
    assert all("gel time" in (pair.first, pair.second) for pair in pairs)
    assert all(pair.apart > 2.0 for pair in pairs)


def test_the_others_tell_what_the_wrong_fact_should_have_been(wrong):
    told = {each.label: each for each in leave_one_out(wrong, {"depth": questions(DENSITY)["depth"]})}
    gel = told["gel time"]
    assert gel.others is not None
    truth = gel.told / WRONG
    assert gel.others.low < truth < gel.others.high
    assert not gel.others.low < gel.told < gel.others.high


def test_leaving_out_the_only_fact_of_its_kind_widens_the_answer(right):
    asked = {"glass_transition": questions(DENSITY)["glass_transition"]}
    told = {each.label: each.without["glass_transition"] for each in leave_one_out(right, asked)}
    widths = {label: band.high - band.low for label, band in told.items()}
    assert max(widths, key=widths.__getitem__) == "glass transition"


def test_a_fact_far_from_its_family_is_unusual():
    (fact,) = sheet_of(invented_resin(), ("glass transition",), glass_transition=1.25)
    ((label, off),) = unusual(Question(PRIOR, (fact,), DENSITY))
    assert label == "glass transition"
    assert off > 5.0


@pytest.mark.parametrize(
    ("mix", "names"),
    [
        (Mix((100, 40), (100, 47.5), 1090.0, 1140.0, 960.0), []),
        # equal parts by volume cannot be 100 to 40 by weight
        (Mix((100, 40), (1, 1), None, 1140.0, 960.0), ["parts by volume"]),
        (Mix((100, 40), None, 1300.0, 1140.0, 960.0), ["densities of A and B"]),
        (Mix((100, 40)), []),
    ],
)
def test_ratio_and_densities_are_held_against_each_other(mix, names):
    assert [first for first, _, _ in mix.contradictions()] == names


def test_parts_by_weight_follow_from_volumes():
    # mass = volume times density
    assert Mix(None, (2.0, 1.0), None, 1100.0, 1000.0).parts() == pytest.approx((2200.0, 1000.0))
    assert Mix(None, (1.0, 1.0), None, 1200.0, 1000.0).mixed_density() == pytest.approx(1100.0)
