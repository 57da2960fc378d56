"""Steps of a pour: in their order, one at a time, with times that follow from what was entered."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta

import pytest

from pourwright.app.benching.step import Happened, Mark, Step, next_step
from pourwright.app.benching.steps import steps_of
from tests.sheets.sample_plan import sample_document, sample_plan

NINE = datetime(2026, 12, 1, 9, 0, tzinfo=UTC)
PLAN = sample_plan(2)
STEPS = {step.id: step for step in steps_of(PLAN)}


def entered(step: Step, at: datetime) -> Happened:
    """What the first button of a step enters."""
    button = step.buttons[0]
    return Happened(pour=step.pour, kind=button.kind, at=at, text=button.text)


def walked(steps: tuple[Step, ...]) -> Iterator[Step]:
    """Press the first button of whatever comes next until nothing does."""
    happened: list[Happened] = []
    while step := next_step(steps, happened):
        yield step
        happened.append(entered(step, NINE + timedelta(minutes=len(happened))))
        assert len(happened) <= len(steps)


def test_every_step_comes_once_in_the_order_of_the_work() -> None:
    steps = steps_of(PLAN)
    assert [step.id for step in walked(steps)] == [step.id for step in steps]
    batches = [f"1.{number}.{part}" for number in (1, 2, 3) for part in ("weigh_a", "weigh_b", "mixed", "in")]
    first = ["1.ready", *batches, "1.level", "1.bubbles", "1.gel", "1.close"]
    assert [step.id for step in steps if step.pour == 1] == first
    assert steps[-1].id == "0.out"


def test_weights_are_the_plans_to_the_step_of_the_scale() -> None:
    for pour in PLAN.pours:
        for batch in pour.batches:
            part_a = STEPS[f"{pour.number}.{batch.number}.weigh_a"]
            part_b = STEPS[f"{pour.number}.{batch.number}.weigh_b"]
            assert (part_a.buttons[0].value, part_b.buttons[0].value) == (batch.part_a_kg, batch.part_b_kg)
            # 100 : 45 by weight
            assert part_b.ratio == pytest.approx(0.45)
    assert STEPS["1.1.weigh_a"].big == "1.159 kg"


def test_a_shop_that_weighs_in_pounds_has_grams_too() -> None:
    step = next(one for one in steps_of(sample_plan(2, units="us")) if one.id == "1.1.weigh_b")
    assert step.big.endswith("(522 g)")
    assert "oz" in step.big


def test_cautions_for_skin_and_lungs_come_once_and_the_rules_of_a_pail_each_time() -> None:
    assert STEPS["1.ready"].cautions == tuple(PLAN.cautions)
    assert STEPS["2.ready"].cautions[0].startswith("Gloves, goggles, fresh air.")
    assert STEPS["1.ready"].timers == ()


def test_times_follow_from_what_was_entered() -> None:
    mixed = Happened(pour=1, kind="mixed", at=NINE)
    ends = {
        timer.words: (timer.when, timer.mark.found([mixed]), timer.after_s)
        for step in STEPS.values()
        for timer in step.timers
        if timer.mark.found([mixed])
    }
    pour = PLAN.pours[0]
    # mixing takes five minutes and the pot life counts from its beginning
    assert pour.work_within_h == 0.75
    assert ends["in the mold"] == ("until", mixed, 40 * 60)
    assert ends["gelled"] == ("about", mixed, pour.gel_after_h * 3600)
    assert ends["bonds"] == ("from", mixed, pour.bonds_from_h * 3600)
    assert ends["bonds without sanding"] == ("until", mixed, pour.bonds_until_h * 3600)


def test_no_pot_life_where_the_plan_knows_none() -> None:
    raw = sample_document(1)
    raw["pours"][0]["work_within_h"] = None
    (step,) = (one for one in steps_of(type(PLAN).model_validate(raw)) if one.id == "1.1.in")
    assert step.timers == ()


def test_both_readings_of_a_level_and_its_dip() -> None:
    # 450 mm deep, poured upside down: 225 mm up is 225 mm as it stands and a dip of 225 mm
    step = STEPS["1.level"]
    assert step.big == "dip 225 mm"
    assert "225 mm up from the mold's floor, 225 mm as the piece stands" in step.lines[0]
    assert [button.kind for button in step.buttons] == ["level", "no_level", "no_level"]


def test_a_level_read_before_the_last_batch_is_not_the_level_of_the_pour() -> None:
    early = Happened(pour=1, kind="level", at=NINE)
    walk = [entered(STEPS[f"1.{n}.in"], NINE + timedelta(minutes=n)) for n in (1, 2, 3)]
    assert not STEPS["1.level"].is_done([early, *walk])
    late = Happened(pour=1, kind="no_level", at=NINE + timedelta(minutes=4))
    assert STEPS["1.level"].is_done([early, *walk, late])


def test_what_was_entered_at_the_terminal_counts() -> None:
    poured = [Happened(pour=1, kind="poured", at=NINE + timedelta(minutes=n)) for n in range(2)]
    following = next_step(steps_of(PLAN), poured)
    assert following is not None
    assert following.id == "1.3.weigh_a"


def test_what_was_passed_over_does_not_come_again_and_an_earlier_pour_is_over() -> None:
    steps = steps_of(PLAN)
    over = Happened(pour=1, kind="step", at=NINE, text="passed over: bubbles of pour 1")
    assert STEPS["1.bubbles"].is_done([over])
    assert not STEPS["1.gel"].is_done([over])
    following = next_step(steps, [Happened(pour=2, kind="weigh_a", at=NINE)])
    assert following is not None
    assert following.id == "2.1.weigh_b"


def test_weights_are_never_passed_over() -> None:
    must = [step for step in STEPS.values() if not step.passed]
    assert {step.id.rpartition(".")[2] for step in must} == {
        "ready",
        "weigh_a",
        "weigh_b",
        "mixed",
        "in",
        "close",
        "out",
    }


def test_the_manyth_entry_is_meant_and_only_of_its_pour() -> None:
    second = Mark(pour=1, kinds=("mixed",), count=2)
    found = [Happened(pour=1, kind="mixed", at=NINE), Happened(pour=2, kind="mixed", at=NINE)]
    assert second.found(found) is None
    last = Happened(pour=1, kind="mixed", at=NINE + timedelta(hours=1))
    assert second.found([*found, last]) is last
