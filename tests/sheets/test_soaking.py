"""What a ticket says of pouring over dry glass."""

import pytest

from pourwright.sheets.pages.soaking import soak_lines
from pourwright.sheets.wording import Wording
from tests.sheets.sample_plan import sample_plan

PLAN = sample_plan()
POUR, WORDS = PLAN.pours[0], Wording(PLAN.job.model_copy(update={"units": "metric"}))


def test_how_long_and_which_bubbles() -> None:
    told = {"soaks_after_h": 25 / 60, "soak_limit_h": 12.5, "soak_margin": 3.0, "bubbles_from_m": 0.000112}
    (line,) = soak_lines(POUR.model_copy(update=told), WORDS)
    assert "about 25 min after mixing it is down" in line
    assert "after 12 h 30 min too thick" in line
    # never told smaller than it is
    assert "Bubbles of 0.15 mm and more" in line


def test_what_does_not_get_through_is_told_first() -> None:
    told = {"soaks_after_h": None, "soak_limit_h": 1.5, "soak_margin": -0.3, "bubbles_from_m": 0.000112}
    (line,) = soak_lines(POUR.model_copy(update=told), WORDS)
    assert line.startswith("It does not get through the glass: too thick after 1 h 30 min.")
    assert "Bubbles" not in line


@pytest.mark.parametrize("bubbles", [None, 0.0001])
def test_a_neat_pour_says_nothing(bubbles: float | None) -> None:
    told = {"soaks_after_h": None, "soak_limit_h": None, "soak_margin": None, "bubbles_from_m": bubbles}
    assert soak_lines(POUR.model_copy(update=told), WORDS) == []
