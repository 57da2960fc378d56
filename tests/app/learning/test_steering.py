"""What was learnt steers the next plan: fill, calendar, heat and shopping; one undo takes it out again."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from pourwright.app.booking.logging import log_job
from pourwright.app.document.shopping import shopping
from pourwright.app.learning.shop import learn_in_shop
from pourwright.app.learnt.used import used_by
from pourwright.app.setup import Setup, set_up, site
from pourwright.app.shaping.piece import read_piece
from pourwright.app.timing import longest_pour, pour_hours
from pourwright.foundation.errors import UserError
from pourwright.jobs import load_job
from tests.app.leaking.block import AREA, planned
from tests.app.learning.keeping import keep


@pytest.fixture
def job(small: Path) -> Path:
    """A small block with a plan on disk, in a shop of its own."""
    (small.parent / "shop.toml").touch()
    return planned(small)


def setup_of(job: Path) -> Setup:
    loaded = load_job(job)
    return set_up(loaded, read_piece(loaded))


def log_water(job: Path, held: float) -> None:
    for number, level in enumerate((20, 30, 40, 45)):
        litres = 1000.0 * held * AREA * level / 1000.0
        at = f"2026-09-0{number + 1} 09:00"
        log_job(job, ("water", f"{1000.0 * litres:.1f} ml", f"{level} mm"), at=at)


def test_water_that_was_logged_widens_the_next_fill_until_it_is_taken_back(job: Path) -> None:
    before = setup_of(job).fill
    log_water(job, 1.05)
    report = learn_in_shop(job.parent)
    (cavity,) = [one for one in report["learnt"] if one["quantity"] == "cavity"]
    # five per cent in a mold 5 cm deep, where a millimetre of the dip is two: it goes half the way
    assert 1.015 < cavity["value"] < 1.05
    assert not cavity["kept_family"]
    assert f"Your mold {job.parent.name} holds 10" in cavity["words"]
    assert "from 4 marks" in cavity["words"]
    after = setup_of(job).fill
    factor = after.levels.total / before.levels.total
    assert factor == pytest.approx(cavity["value"])
    # same heights, and so much more of everything between them
    assert [band.upper for band in after.bands] == [band.upper for band in before.bands]
    assert after.glass_mass == pytest.approx(factor * before.glass_mass, rel=2e-3)
    assert ("cavity", job.parent.name) in {(one.quantity, one.subject) for one in used_by(load_job(job))}
    learn_in_shop(job.parent, undo=cavity["number"])
    assert setup_of(job).fill.levels.total == before.levels.total


def test_water_is_dipped_from_the_rim_too(job: Path) -> None:
    log_job(job, ("water", "100 ml"), dip="20 mm", at="2026-09-01 09:00")
    (pour,) = log_job(job).to_json()["pours"]
    held, level = pour["entries"]
    assert (pour["pour"], held["kind"], level["kind"]) == (0, "water", "water_level")
    # 998.2 kg/m3 at 20 degC
    assert held["value_kg"] == pytest.approx(0.09982, abs=1e-5)
    assert "dip 20 mm" in level["value"]
    again = log_job(job, ("correct", held["id"], "0.12 kg")).to_json()["pours"][0]["entries"]
    assert {one["value"] for one in again if not one["corrected_by"]} == {"120 g", level["value"]}


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("water", "3 L"), "needs something else after it"),
        (("water", "3 kg", "20 mm"), "more water than the mold holds"),
        (("water", "3 s", "20 mm"), "water"),
        (("water", "0.1 L", "3 m"), "above the mold"),
        (("sieved", "gravel", "1 kg"), "'gravel' is not known"),
        (("crushed",), "needs something else after it"),
        (("size", "z", "5 cm"), "'z' is not known"),
        (("rubber", "C", "1 kg"), "'C' is not known"),
    ],
)
def test_what_cannot_be_is_one_sentence_and_not_entered(job: Path, words: tuple[str, ...], told: str) -> None:
    with pytest.raises(UserError, match=told):
        log_job(job, words)
    assert log_job(job).to_json()["pours"] == []


def test_yields_that_were_logged_are_learnt_by_grade(job: Path) -> None:
    for day in (1, 2, 3):
        log_job(job, ("crushed", "10 kg"), at=f"2026-09-0{day} 09:00")
        log_job(job, ("sieved", "medium", "5.5 kg"), at=f"2026-09-0{day} 10:00")
    report = learn_in_shop(job.parent)
    (found,) = [one for one in report["learnt"] if one["quantity"] == "crush_yield"]
    assert (found["subject"], found["kept_family"]) == ("medium", False)
    assert found["value"] == pytest.approx(0.55, abs=0.03)
    assert "from 3 crushings" in found["words"]


def test_a_slower_shop_has_a_longer_pour_and_starts_it_earlier(job: Path) -> None:
    before = setup_of(job)
    keep(job, "hours", "weighing, mixing and pouring", 2.0, prior=1.0)
    keep(job, "hours", "getting ready", 3.0, prior=1.0)
    after = setup_of(job)
    assert longest_pour(after) == 2 * longest_pour(before)
    assert pour_hours(after).closes < pour_hours(before).closes
    assert pour_hours(after).opens > pour_hours(before).opens


def test_a_draughty_corner_is_in_the_heat_run_and_failing_pieces_in_the_shopping(job: Path) -> None:
    moment = datetime(2026, 9, 1, tzinfo=UTC)
    assert site(setup_of(job), moment).film_factor == 1.0
    assert all("fail" not in need.note for need in shopping(setup_of(job), []))
    keep(job, "heat_film", job.parent.name, 1.3, prior=1.0)
    keep(job, "scrap_rate", "pieces", 0.2, records=20, prior=0.1)
    after = setup_of(job)
    assert site(after, moment + timedelta(days=1)).film_factor == 1.3
    notes = {need.item: need.note for need in shopping(after, [])}
    run = "20 % of your pieces fail: for 10 good ones have enough for 12.5"
    assert sum(run in note for note in notes.values()) == 2 + len(after.fill.glass)


def test_another_molds_water_and_corner_are_not_this_ones(job: Path) -> None:
    before = setup_of(job)
    keep(job, "cavity", "another job", 1.2, prior=1.0)
    keep(job, "heat_film", "another job", 1.3, prior=1.0)
    assert setup_of(job).fill.levels.total == before.fill.levels.total
    assert used_by(load_job(job)) == []
