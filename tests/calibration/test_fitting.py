"""Known resins are found again from their data sheets and from their cup tests."""

import numpy as np
import pytest

from pourwright.calibration.answers import answer, questions
from pourwright.calibration.fitting import Question, fit, settle
from pourwright.calibration.parameters import NAMES, NORMAL_P90, PLACE, load_priors
from tests.calibration.invented import DENSITY, cup_evidence, invented_resin, logged_cup, sheet_of

PRIOR = load_priors()["epoxy-slow-deep"]
# within three standard deviations of what the band says: a fixed draw, so no chance is left
WIDE = 3.0


def test_without_evidence_the_family_is_the_answer():
    found = fit(Question(PRIOR, (), DENSITY))
    assert found.deviates == pytest.approx(np.zeros(len(NAMES)), abs=1e-6)
    assert found.narrowing == pytest.approx(np.ones(len(NAMES)), abs=1e-6)


def test_a_data_sheet_gives_back_its_resin():
    truth = invented_resin(speed=0.9, start_share=-0.5, heat_of_reaction=0.6, glass_transition_full=-0.8)
    found = fit(Question(PRIOR, sheet_of(truth), DENSITY))
    assert found.narrowing[PLACE["speed"]] < 0.6
    assert found.narrowing[PLACE["glass_transition_full"]] < 0.5
    for fact, missed in zip(found.question.evidence, found.blocks, strict=True):
        assert abs(missed[0]) < 0.7, fact.label
    for key, question in questions(DENSITY).items():
        told = answer(found, question)
        half = WIDE / NORMAL_P90
        assert told.low < told.value < told.high
        value = question.stretched(truth)
        middle, deviation = found.spread(question.stretched)
        assert abs(value - middle) < half * NORMAL_P90 * deviation, key


def test_the_same_facts_give_the_same_fit():
    facts = sheet_of(invented_resin(speed=0.4), ("gel time", "glass transition"))
    first, second = (fit(Question(PRIOR, facts, DENSITY)) for _ in range(2))
    assert np.array_equal(first.deviates, second.deviates)
    assert np.array_equal(first.slopes, second.slopes)


@pytest.fixture(scope="module")
def cup_fit():
    truth = invented_resin(speed=0.7, start_share=-0.6, activation_energy=0.5, heat_of_reaction=-0.4)
    return truth, settle(Question(PRIOR, (cup_evidence(logged_cup(truth)),), DENSITY))


def test_a_cup_test_gives_back_its_resin(cup_fit):
    truth, found = cup_fit
    for key, question in questions(DENSITY).items():
        middle, deviation = found.spread(question.stretched)
        assert abs(question.stretched(truth) - middle) < WIDE * deviation, key
    gel = questions(DENSITY)["film_gel"]
    # a coat's gel time follows from the cup within a fifth; the family alone knows it to a factor of two
    assert gel.answer(found.resin) == pytest.approx(gel.answer(truth), rel=0.2)
    assert found.narrowing[PLACE["speed"]] < 0.35


def test_a_cup_test_says_nothing_of_the_cured_resin(cup_fit):
    _, found = cup_fit
    assert found.narrowing[PLACE["glass_transition_full"]] > 0.8


def test_the_curve_is_matched_to_its_noise(cup_fit):
    _, found = cup_fit
    (missed,) = found.blocks
    assert np.sqrt(np.mean(missed**2)) < 2.0
    # the offset of 0.4 K that was put on the sensor, in deviations of 0.5 K
    own = found.deviates[len(NAMES) :]
    assert abs(own[2] - 0.8) < 2.0
