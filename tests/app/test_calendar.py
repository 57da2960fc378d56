"""The calendar of a job: nothing past, nothing after hours, one thing at a time, a reason for every gap."""

import dataclasses
from datetime import UTC, datetime, time, timedelta
from itertools import pairwise

import pytest
from hypothesis import given, settings, strategies as st

from pourwright.app.diary import Diary
from pourwright.app.document.missing import REASONS, empty_places
from pourwright.app.pricing.steps import OTHER, STEPS, step_of
from pourwright.app.setup import set_up, working_hours
from pourwright.app.shaping.piece import read_piece
from pourwright.app.timing import begin, pour_hours, rubber_length, work_ahead
from pourwright.app.work_lengths import laying_length
from pourwright.jobs import load_job, read_job
from pourwright.jobs.plan import PlanDocument
from pourwright.planner.hours import WorkingHours
from tests.app.conftest import EXAMPLES, NOW, SMALL
from tests.app.making import only_planned

pytestmark = pytest.mark.xdist_group("example")
NO_START = SMALL.replace('start = "2027-01-11 09:00"\n', "")
TIGHT = '[shop]\nworking_hours = "09:00-14:00"\nworking_days = ["mon", "thu"]\n'


def slots(plan: PlanDocument) -> list[tuple[datetime, datetime]]:
    busy = [event for event in plan.calendar if event.kind != "wait"]
    return [(datetime.fromisoformat(event.start), datetime.fromisoformat(event.end)) for event in busy]


def assert_one_person_can(plan: PlanDocument, hours: WorkingHours) -> None:
    busy = sorted(slots(plan))
    for start, end in busy:
        assert hours.is_open(start)
        assert hours.is_open(end)
        assert start.date() == end.date()
    assert all(first[1] <= second[0] for first, second in pairwise(busy))


@pytest.mark.parametrize("name", ["hourglass-stool", "table-lamp"])
def test_examples_keep_their_working_hours(name, request):
    plan = request.getfixturevalue({"hourglass-stool": "stool", "table-lamp": "lamp"}[name]).plans[0]
    assert_one_person_can(plan, working_hours(load_job(EXAMPLES / name)))
    for pour in plan.pours:
        named = [event.title for event in plan.calendar]
        assert (f"Lay the glass for pour {pour.number}" in named) == bool(pour.glass)
    # both methods are shown
    assert (plan.mold.rubber.fill_mark_before_master_m is None) == (plan.mold.method == "screwed")


@pytest.mark.parametrize("name", ["stool", "lamp"])
def test_every_hour_of_work_belongs_to_a_step_that_a_cost_knows(name, request):
    plan = request.getfixturevalue(name).plans[0]
    titles = [event.title for event in plan.calendar if event.kind != "wait"]
    assert [title for title in titles if step_of(title) == OTHER] == []
    own = {step.key for step in STEPS if step.stage == "mold"}
    once = {event.title for event in plan.calendar if event.kind == "mold"}
    assert {step_of(title) for title in once} <= own


@pytest.mark.parametrize("name", ["stool", "lamp"])
def test_tops_are_touched_once_they_have_gelled_and_before_anything_goes_on(name, request):
    plan = request.getfixturevalue(name).plans[0]
    touched = {event.title: event for event in plan.calendar if event.title.endswith("gelled?")}
    last = plan.pours[-1]
    assert f"Is pour {last.number} gelled?" in touched
    for pour, after in zip(plan.pours, [*plan.pours[1:], None], strict=True):
        if (event := touched.get(f"Is pour {pour.number} gelled?")) is None:
            continue
        gelled = datetime.fromisoformat(pour.start) + timedelta(hours=pour.gel_after_h)
        assert datetime.fromisoformat(event.start) >= (
            gelled if after is None else datetime.fromisoformat(pour.next_from)
        )
        following = plan.demold.at if after is None else after.start
        assert datetime.fromisoformat(event.end) <= datetime.fromisoformat(following)


@pytest.mark.parametrize("shop", ["[shop]\n", TIGHT])
def test_without_a_start_nothing_lies_in_the_past(small, shop):
    small.write_text(NO_START.replace("[shop]\n", shop), "utf8")
    job = load_job(small)
    plan = only_planned(small)
    assert all(start >= datetime.fromisoformat(plan.computed_for) for start, _ in slots(plan))
    assert_one_person_can(plan, working_hours(job))
    assert any("no start is given" in reason.text for reason in plan.reasons if reason.key == "pours[].start")
    named = {event.title: event for event in plan.calendar}
    order = ["Seal the master", "Lay the test patch", "Look at the test patch", "Release on the master"]
    starts = [named[title].start for title in [*order, "Pour the rubber"]]
    assert starts == sorted(starts)
    rubber, first = named["Pour the rubber"], plan.pours[0]
    cured = timedelta(hours=plan.mold.rubber.demold_time_h)
    patched = datetime.fromisoformat(named["Lay the test patch"].end) + cured
    assert datetime.fromisoformat(named["Look at the test patch"].start) >= patched
    assert datetime.fromisoformat(first.start) - datetime.fromisoformat(rubber.end) > cured
    assert not any("too little time" in warning for warning in plan.warnings)


def test_a_start_too_soon_is_told(small):
    soon = datetime(2026, 12, 2, 9, 0)
    plan = only_planned(small, soon)
    (warning,) = [text for text in plan.warnings if "too little time" in text]
    # three coats a day, two days to dry, half a day for the patch, half a day for the rubber
    assert "'seal the master' should have begun by" in warning
    assert only_planned(small).warnings == [w for w in plan.warnings if w != warning]


def test_every_empty_value_has_its_reason(stool, lamp, small):
    plans = [stool.plans[0], lamp.plans[0], only_planned(small)]
    for plan in plans:
        empty = list(empty_places(plan.model_dump(mode="json")))
        assert empty
        assert set(empty) <= {reason.key for reason in plan.reasons}


def optional_places(schema: dict, node: dict, place: str = "") -> set[str]:
    """Every place of the schema that may be null."""
    if "$ref" in node:
        return optional_places(schema, schema["$defs"][node["$ref"].rsplit("/", 1)[-1]], place)
    found = {place} if {"type": "null"} in node.get("anyOf", []) else set()
    for option in node.get("anyOf", []):
        found |= optional_places(schema, option, place)
    for key, inner in node.get("properties", {}).items():
        found |= optional_places(schema, inner, f"{place}.{key}".lstrip("."))
    return found | (optional_places(schema, node["items"], f"{place}[]") if "items" in node else set())


def test_a_reason_is_known_for_every_value_that_may_be_empty():
    schema = PlanDocument.model_json_schema()
    places = optional_places(schema, schema)
    bands = {place for place in places if place.endswith(("_p10", "_p90"))}
    of_a_measured_body = {"piece.volume_m3_p10", "piece.volume_m3_p90"}
    assert of_a_measured_body <= bands
    # every other band has one reason for all places
    assert places - (bands - of_a_measured_body) == set(REASONS)


def test_levels_of_pours_stand_in_the_dip_stick_and_moments_have_one_form(stool):
    plan = stool.plans[0]
    heights = [row.height_m for row in plan.dip_stick]
    assert all(min(abs(height - pour.to_m) for height in heights) < 1e-9 for pour in plan.pours)
    moments = [plan.demold.at, plan.computed_for, *(pour.start for pour in plan.pours)]
    moments += [moment for event in plan.calendar for moment in (event.start, event.end)]
    assert {len(moment) for moment in moments} == {len("2027-01-11T09:00:00+01:00")}


def test_a_stated_start_is_kept_or_said():
    setup = set_up(job := read_job(SMALL), read_piece(job))
    assert begin(setup, None, NOW).first == begin(setup, None, NOW).stated
    late = begin(setup, datetime(2027, 1, 11, 17, 30), NOW)
    assert late.first == datetime(2027, 1, 12, 9, tzinfo=late.first.tzinfo)


def test_lengths_by_hand():
    job = load_job(EXAMPLES / "hourglass-stool")
    setup = set_up(job, read_piece(job))
    # 26.5 kg at 1 kg a minute, 4 batches of 5 minutes' stirring, half an hour to set out, to the next quarter
    assert rubber_length(setup) == timedelta(minutes=90)
    # ten minutes to weigh out, 40 kg at 2 kg a minute
    assert laying_length(40.0) == timedelta(minutes=30)
    assert not laying_length(0.0)
    hours = pour_hours(setup)
    # three pails of at most 8.2 kg, 13.3 kg in all: 30 minutes; an hour to look
    assert (hours.opens, hours.closes) == (time(9), time(16, 30))


@settings(max_examples=25, deadline=None)
@given(
    opens=st.integers(0, 15),
    length=st.integers(5, 8),
    days=st.frozensets(st.integers(0, 6), min_size=1),
    hour=st.integers(0, 400),
)
def test_before_the_first_pour_there_is_always_time(opens, length, days, hour):
    names = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
    shop = (
        f'[shop]\nworking_hours = "{opens:02}:00-{opens + length:02}:00"\n'
        f"working_days = {sorted(names[day] for day in days)}\n"
    ).replace("'", '"')
    job = read_job(NO_START.replace("[shop]\n", shop))
    setup = dataclasses.replace(SETUP, job=job)
    now = datetime(2026, 12, 1, tzinfo=UTC) + timedelta(hours=hour)
    beginning = begin(setup, None, now)
    diary = Diary(working_hours(job))
    before = work_ahead(setup, diary, now)
    check = diary.before(beginning.first, timedelta(minutes=30))
    laid = diary.before(check[0], laying_length(setup.fill.glass_mass))
    assert laid[0] >= before.master_out[1]
    assert laid[0] >= before.wash[1] + timedelta(hours=24)
    assert all(start >= now for start, _ in diary.booked)
    assert pour_hours(setup).is_open(beginning.first)


SETUP = set_up(JOB := read_job(SMALL), read_piece(JOB))
