"""Learning from a shop's records, against textbook forms and against plain numerical integrals."""

import math

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import beta, norm

from pourwright.calibration.learning.conjugate import Beta, Normal, beta_of_band, counted, updated
from pourwright.calibration.learning.learn import learn
from pourwright.calibration.learning.quantities import QUANTITIES
from pourwright.calibration.learning.record import BAND, Family, Record
from pourwright.calibration.learning.robust import LOOSE, weigh

VOIDS = Family(0.45, 0.42, 0.50)


def records(name: str, *values: float, subject: str = "coarse") -> list[Record]:
    return [
        Record(id=str(number), quantity=name, subject=subject, value=value)
        for number, value in enumerate(values)
    ]


def test_normal_readings_of_known_scatter_join_as_in_the_textbook() -> None:
    """Posterior mean is the precision-weighted one: prior 0 +- 1, mean of four at 2 +- 1 each."""
    found = updated(Normal(0.0, 1.0), [2.0] * 4, [1.0] * 4)
    assert found.mean == pytest.approx(4 * 2.0 / (1 + 4))
    assert found.deviation == pytest.approx(math.sqrt(1 / 5))


def test_counts_join_as_in_the_textbook() -> None:
    """The placenta previa figures: 437 girls of 980 births, uniform prior: Beta(438, 544), mean 0.446."""
    found = counted(Beta(1.0, 1.0), 437, 980)
    assert (found.failed, found.went_well) == (438.0, 544.0)
    assert found.mean == pytest.approx(0.446, abs=5e-4)
    assert (found.quantile(0.025), found.quantile(0.975)) == pytest.approx((0.415, 0.477), abs=1e-3)


def test_a_belief_about_a_rate_has_the_width_that_was_told() -> None:
    found = beta_of_band(0.10, 0.03, 0.25)
    law = beta(found.failed, found.went_well)
    assert law.mean() == pytest.approx(0.10)
    assert law.ppf(0.9) - law.ppf(0.1) == pytest.approx(0.22, abs=1e-6)


def test_without_bad_records_and_with_known_scatter_the_grid_is_the_conjugate_form() -> None:
    prior, values, deviations = Normal(1.0, 0.5), [1.4, 1.2, 1.9], [0.1, 0.3, 0.2]
    found = weigh(prior, values, deviations, 0.2, bad=0.0, loose=0.0).settled()
    exact = updated(prior, values, [math.hypot(0.2, each) for each in deviations])
    assert found.mean == pytest.approx(exact.mean, abs=1e-4)
    assert found.deviation == pytest.approx(exact.deviation, rel=2e-3)
    for share in (0.1, 0.5, 0.9):
        expected = norm(exact.mean, exact.deviation).ppf(share)
        assert found.quantile(share) == pytest.approx(expected, abs=2e-3)


def test_the_robust_value_is_that_of_a_double_integral() -> None:
    prior, values, usual = Normal(0.0, 1.0), [0.9, 1.1, 5.0], 0.2

    def likelihood(value: float) -> float:
        """Over the scatter, by another rule: trapezium with many steps."""
        steps = np.linspace(-3.0, 3.0, 601)
        s = usual * np.exp(LOOSE * steps)
        each = [0.9 * norm.pdf(y, value, s) + 0.1 * norm.pdf(y, value, 10 * s) for y in values]
        return float(np.trapezoid(np.prod(each, axis=0) * norm.pdf(steps), steps) * norm.pdf(value))

    whole = quad(likelihood, -3, 6, points=[1.0], limit=200)[0]
    mean = quad(lambda v: v * likelihood(v), -3, 6, points=[1.0], limit=200)[0] / whole
    assert weigh(prior, values, [0.0] * 3, usual).settled().mean == pytest.approx(mean, abs=2e-3)


def test_one_bad_record_in_ten_hardly_moves_the_value_and_is_named() -> None:
    good = [0.438, 0.441, 0.440, 0.443, 0.437, 0.442, 0.439, 0.440, 0.441]
    clean, spoilt = (
        learn(records("void_fraction", *good), VOIDS),
        learn(records("void_fraction", *good, 0.62), VOIDS),
    )
    assert abs(spoilt.value - clean.value) < 0.002
    assert [suspect.value for suspect in spoilt.suspects] == [0.62]
    assert clean.suspects == ()
    assert not spoilt.kept_family


def test_a_record_set_aside_counts_nothing() -> None:
    told = records("void_fraction", 0.44, 0.43, 0.44, 0.62)
    aside = [*told[:3], Record(**{**_fields(told[3]), "aside": True})]
    assert learn(aside, VOIDS) == learn(told[:3], VOIDS)


def _fields(record: Record) -> dict:
    return {name: getattr(record, name) for name in Record.__slots__}


def test_records_that_scatter_around_the_family_keep_it_and_say_why() -> None:
    found = learn(records("void_fraction", 0.40, 0.50, 0.45, 0.451), VOIDS)
    assert (found.kept_family, found.why) == (True, "no better")
    assert (found.value, found.low, found.high) == (0.45, 0.42, 0.50)
    assert found.error is not None
    assert found.family_error is not None
    assert found.error >= found.family_error


def test_one_record_is_too_few() -> None:
    found = learn(records("void_fraction", 0.40), VOIDS)
    assert (found.kept_family, found.why, found.error) == (True, "few", None)


def test_scrap_is_counted_not_measured() -> None:
    told = [Record(id=str(n), quantity="scrap_rate", subject="stool", value=2.0, trials=5) for n in range(6)]
    found = learn(told, Family(0.10, 0.03, 0.25))
    prior = beta_of_band(0.10, 0.03, 0.25)
    assert not found.kept_family
    assert found.value == pytest.approx((prior.failed + 12) / (prior.failed + prior.went_well + 30))


def test_records_of_two_things_are_not_mixed() -> None:
    with pytest.raises(ValueError, match="one quantity and one subject"):
        learn([*records("void_fraction", 0.4), *records("film", 1e-4)], VOIDS)


@pytest.mark.parametrize("name", ["void_fraction", "bucket_loss", "cure_rate", "cavity"])
def test_bands_of_invented_shops_hold_the_truth(name: str) -> None:
    """60 shops, one record in ten bad; 200 of each number stand in the benchmark."""
    families = {
        "void_fraction": VOIDS,
        "bucket_loss": Family(0.02, 0.01, 0.05),
        "cure_rate": Family(1.0, 0.75, 1.33),
        "cavity": Family(1.0, 0.98, 1.02),
    }
    rng, family, quantity = np.random.default_rng(4), families[name], QUANTITIES[name]
    scale, usual = quantity.on, quantity.scatter.value if quantity.scatter else 0.0
    middle = scale.there(family.value)
    spread = (scale.there(family.high) - scale.there(family.low)) / BAND
    held, ours, theirs = 0, 0.0, 0.0
    for _ in range(60):
        truth = rng.normal(middle, spread)
        values = rng.normal(truth, usual, 8) + (rng.uniform(size=8) < 0.1) * 10 * usual
        found = learn(records(name, *map(scale.back, values)), family)
        held += scale.there(found.low) <= truth <= scale.there(found.high)
        ours += abs(scale.there(found.value) - truth)
        theirs += abs(middle - truth)
    assert 0.68 <= held / 60 <= 0.95
    assert ours < 0.7 * theirs
