"""Soaking in the plan document: what is told of a pour, and when it is warned of."""

from dataclasses import replace
from types import SimpleNamespace

import pytest

from pourwright.app.document.soaking import soak_reason, soak_warnings, soaked
from pourwright.jobs import plan
from pourwright.pour.site import Bed
from tests.pour.blocks import HOUR, block_site
from tests.sheets.sample_plan import sample_plan

NEAT = block_site(0.15, 0.1, resin="epoxy-fast")
FILLED = replace(NEAT, beds=(Bed(0.0, 0.15, 0.55, 0.0044),))
POUR = sample_plan().pours[0]


def seen(gels_after: float) -> SimpleNamespace:
    return SimpleNamespace(lower=0.0, upper=0.15, start=2 * HOUR, gel_first=2 * HOUR + gels_after)


def told(after: float | None, limit: float | None, margin: float | None) -> plan.Pour:
    return POUR.model_copy(update={"soaks_after_h": after, "soak_limit_h": limit, "soak_margin": margin})


def test_times_count_from_mixing_and_end_with_the_first_gel() -> None:
    free, hot = soaked(FILLED, seen(100 * HOUR)), soaked(FILLED, seen(0.5 * HOUR))
    assert 5 / 60 < free.soaks_after_h < free.soak_limit_h
    assert hot.soak_limit_h == pytest.approx(0.5)
    assert hot.soak_margin < free.soak_margin
    assert hot.soaks_after_h == free.soaks_after_h


def test_a_neat_pour_tells_of_its_bubbles_only() -> None:
    found = soaked(NEAT, seen(3 * HOUR))
    assert found[:3] == (None, None, None)
    assert found.bubbles_from_m > 0.0
    assert not list(soak_reason([told(None, None, None)]))


@pytest.mark.parametrize(
    ("pour", "says"),
    [
        (
            told(None, 1.5, -0.4),
            "does not get through its dry glass: too thick after 1 h 30 min",
        ),
        (told(0.8, 1.5, 0.5), "in 48 min, and is too thick after 1 h 30 min: little to spare"),
    ],
)
def test_what_is_too_slow_or_nearly_so_is_warned_of(pour: plan.Pour, says: str) -> None:
    (warning,) = soak_warnings([pour])
    assert says in warning
    assert [reason.key for reason in soak_reason([pour])] == ["pours[].soak_limit_h"]


@pytest.mark.parametrize("pour", [told(0.4, 12.0, 20.0), told(None, None, None)])
def test_what_has_time_enough_or_no_glass_is_not(pour: plan.Pour) -> None:
    assert not list(soak_warnings([pour]))
