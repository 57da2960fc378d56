"""Under-cure and damp of a small cast as the plan document tells them."""

from datetime import UTC, datetime
from types import SimpleNamespace

import pytest

from pourwright.app.document.missing import REASONS, empty_places
from pourwright.app.document.soft import soft_part, soft_warnings, with_washing
from pourwright.app.setup import Setup, set_up
from pourwright.app.shaping.piece import read_piece
from pourwright.app.timing import begin, request
from pourwright.jobs import load_job
from pourwright.jobs.plan import Event
from pourwright.jobs.plan_soft import Soft
from pourwright.pour.layout import lay_out
from pourwright.pour.rehearse import Planned, Rehearsal, rehearse
from pourwright.pour.snapshots import Recorder

NOW = datetime(2026, 12, 1, 9, tzinfo=UTC)
JOB = """
format = 1
title = "Tile"
units = "{units}"
[shape]
box = ["120 mm", "120 mm", "36 mm"]
[casting]
material = "epoxy-slow-deep"
[[band]]
to = "top"
neat = true
[shop]
day_temperature = "{day} degC"
night_temperature = "{night} degC"
humidity = {humidity}
time_zone = "Europe/Berlin"
"""


def looked_at(tmp_path, *, units="metric", day=21, night=21, humidity=0.45, **more) -> tuple[Setup, Soft]:
    path = tmp_path / "job.toml"
    path.write_text(JOB.format(units=units, day=day, night=night, humidity=humidity), "utf8")
    job = load_job(path)
    setup = set_up(job, read_piece(job))
    asked = request(setup, begin(setup, None, NOW), 0.012)
    seen = _rehearsed(asked.site, **more)
    opening = asked.site.climate.moment(seen.ready) if seen.ready < float("inf") else None
    return setup, soft_part(setup, asked, SimpleNamespace(final=seen), opening)


def _rehearsed(site, pours=((0.018, 0.0), (0.036, 45.0))) -> Rehearsal:
    start = 0.0
    layout = lay_out(site, 0.012, [level for level, _ in pours])
    plan = tuple(Planned(level, start + hours * 3600.0) for level, hours in pours)
    return rehearse(layout, plan, recorder=Recorder(layout))


@pytest.fixture(scope="module")
def tile(tmp_path_factory):
    return looked_at(tmp_path_factory.mktemp("tile"))


@pytest.fixture(scope="module")
def damp(tmp_path_factory):
    return looked_at(tmp_path_factory.mktemp("damp"), day=22, night=15, humidity=0.8)


def test_one_place_a_pour_as_the_next_one_comes_and_one_at_demolding(tile):
    told = [(place.pour, place.moment) for place in tile[1].places]
    assert told == [(1, "next pour"), (1, "demold"), (2, "demold")]
    assert all(place.at is not None for place in tile[1].places)


def test_places_are_told_in_words_that_fit_the_numbers(tile):
    last = tile[1].places[-1]
    assert "mm up" in last.place
    assert last.place.endswith("outside")
    # hard enough: 5 K above an ordinary room of 20 degC or the shop of 21 degC
    assert last.glass_transition_degC >= 26.0 - 0.1


def test_the_stall_is_told_with_what_it_means(tile):
    stall = tile[1].stall
    # half of the rate is lost where Tg is 10 K above the resin, by the record
    assert stall.glass_transition_degC == pytest.approx(31.0, abs=0.01)
    for words in [
        "stalls at about 90 % cured",
        "soft above 31 °C",
        "fully cured above 52 °C",
        # 10 K below 31 °C is what this shop has itself
        "leaves it no ordinary room: cure it warm",
        "fingernail",
        "parked car",
    ]:
        assert words in stall.text


def test_a_piece_that_was_kept_warm_has_a_warmth_to_stay_below(tmp_path):
    stall = looked_at(tmp_path, day=35, night=35)[1].stall
    assert stall.keep_below_degC >= 30.0
    assert f"should stay below {stall.keep_below_degC:.0f} °C" in stall.text


def test_thinnest_section_and_shallowest_pour_are_those_of_the_tile(tile):
    section, pour = tile[1].thin
    assert section.thickness_m == pytest.approx(0.036)
    assert (pour.pour, pour.thickness_m) == (1, pytest.approx(0.018))
    assert "36 mm" in section.text
    assert "18 mm deep" in pour.text


def test_the_warm_box_gains_and_begins_when_somebody_is_there(tile):
    box = tile[1].warm_box
    assert box is not None
    assert box.glass_transition_to_degC > box.without_degC + 10.0
    start = datetime.fromisoformat(box.begin)
    assert 8 <= start.hour < 18
    assert start.weekday() < 5
    assert box.begin < box.warm_at < box.cool_at < box.shop_at <= box.open_at
    assert any("Do not open before" in step for step in box.steps)
    assert any("data sheet decides" in caution for caution in box.cautions)


def test_a_dry_shop_needs_no_washing(tile):
    setup, soft = tile
    assert all(pour.dry and not pour.blushes for pour in soft.damp.pours)
    assert soft_warnings(soft) == []
    assert "dew point at 9 °C" in soft.damp.text
    assert setup.system == "metric"


def test_a_damp_shop_is_told_with_a_remedy_and_what_to_wash(damp):
    soft = damp[1]
    assert soft.damp.highest_humidity == 1.0
    assert "by night it has 100 %" in soft.damp.text
    assert any(pour.blushes for pour in soft.damp.pours)
    warned = " ".join(soft_warnings(soft))
    assert "too damp at its start" in warned
    assert "Warm mold and glass to" in warned or "dry the air below" in warned
    assert "the bond window is void" in soft.damp.pours[0].wash
    assert "open face" in soft.damp.pours[1].wash


def test_the_calendar_says_where_a_bond_is_void(damp):
    bond = Event(
        start="2026-12-03T09:00:00+01:00", end="2026-12-03T15:00:00+01:00",
        title="Pour 2 bonds to pour 1", detail="Pour the next one within this time.", kind="wait",
    )  # fmt: skip
    other = bond.model_copy(update={"title": "Demold"})
    washed, same = with_washing([bond, other], damp[1])
    assert "wash it with warm water" in washed.detail
    assert (washed.start, washed.end) == (bond.start, bond.end)
    assert same == other


def test_every_empty_place_has_its_reason(tile, damp):
    for soft in (tile[1], damp[1]):
        places = set(empty_places({"soft": soft.model_dump(mode="json")}))
        assert places <= set(REASONS)


def test_a_cold_shop_never_hardens_and_the_warm_box_helps(tmp_path):
    _, soft = looked_at(tmp_path, day=4, night=4, pours=((0.036, 0.0),))
    assert soft.places[-1].at is None
    assert {each.verdict for each in soft.least} <= {"none", "from"}
    warned = " ".join(soft_warnings(soft))
    assert "it stalls" in warned
    assert "warm box" in warned
    assert soft.warm_box is not None
    assert "never gets hard in this shop" in soft.warm_box.gain
    assert soft.warm_box.hard_at is not None


def test_us_units_are_kept(tmp_path):
    _, soft = looked_at(tmp_path, units="us")
    assert "°F" in soft.stall.text
    assert " in up" in soft.places[-1].place
    assert "°C" not in " ".join(
        [soft.stall.text, soft.damp.text, *(soft.warm_box.steps if soft.warm_box else [])]
    )


def test_the_same_job_gives_the_same_answer(tile, tmp_path):
    assert looked_at(tmp_path)[1] == tile[1]
