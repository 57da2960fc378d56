"""Options, what-ifs and castings that stay soft: what a maker may ask and what comes back."""

import pytest

from pourwright.foundation.errors import UserError
from tests.app.making import only_planned, plan_quickly
from tests.app.test_calendar import NOW


def test_an_option_that_never_hardens_is_not_taken(small):
    text = small.read_text("utf8") + '[planner]\nshop_temperatures = ["-15 degC"]\n'
    small.write_text(text, "utf8")
    plan = only_planned(small)
    assert plan.demold.after_h is not None
    (choice,) = [reason.text for reason in plan.reasons if reason.key == "planner"]
    assert "the job as written" in choice


def test_a_warmer_shop_that_the_job_allows_is_taken(small):
    as_written = only_planned(small)
    text = small.read_text("utf8") + '[planner]\nshop_temperatures = ["24 degC"]\n'
    small.write_text(text, "utf8")
    plan = only_planned(small)
    assert plan.demold.after_h < as_written.demold.after_h
    assert plan.pours[0].start_temperature_degC == pytest.approx(24.0)


def test_what_if_answers_in_one_line(small):
    asked = [
        'shop.temperature = "26 degC"',
        'band = [{to = "20 mm", grade = "fine"}, {to = "top", neat = true}]',
    ]
    plan = only_planned(small, what_if=asked)
    assert [what.change for what in plan.what_if] == asked
    assert all(what.pours >= 1 and what.days > 0 for what in plan.what_if)
    warmer = plan.what_if[0]
    assert warmer.days * 24 < plan.demold.after_h + 7 * 24


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ("", "nothing is changed"),
        ("shop.temperatur = 3", "unknown key 'temperatur'"),
        ("shop.temperature", "cannot be read"),
        ('casting.material = "nope"', "no casting material called 'nope'"),
        ('shape.up = "-z"', "another job"),
        ('planner.joints = "bond"', "another job"),
    ],
)
def test_a_what_if_that_cannot_be_is_refused(small, lines, told):
    with pytest.raises(UserError) as refused:
        plan_quickly(small, now=NOW, what_if=[lines])
    assert told in str(refused.value)
    assert str(refused.value).startswith("--what-if")
    assert not (small.parent / "plan").exists()


def test_a_depth_of_liquid_below_any_level_is_refused(small):
    small.write_text(small.read_text("utf8") + '[limits]\nliquid_depth = "1 mm"\n', "utf8")
    with pytest.raises(UserError, match="too deep over the seams"):
        plan_quickly(small, now=NOW)


def test_a_depth_of_liquid_takes_more_pours(small):
    assert len(only_planned(small).pours) == 1
    small.write_text(small.read_text("utf8") + '[limits]\nliquid_depth = "30 mm"\n', "utf8")
    plan = only_planned(small)
    assert len(plan.pours) > 1
    assert all(pour.to_m - pour.from_m <= 0.030 + 1e-9 for pour in plan.pours)
