"""Will it stick, from the job file to check, plan, mold and ticket: what is refused, blocked, unlocked."""

import dataclasses
import itertools
from collections.abc import Callable
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from pourwright.app import check_job, mold_job
from pourwright.app.contact import cast_of, contact_of, patch_part, refuse_sticking
from pourwright.app.diary import Diary
from pourwright.app.document.master_agenda import LOOK, master_events
from pourwright.app.master_timing import master_ahead, master_back
from pourwright.app.setup import set_up, working_hours
from pourwright.app.shaping.piece import read_piece
from pourwright.foundation.errors import UserError
from pourwright.jobs import read_job
from pourwright.jobs.plan import PlanDocument
from pourwright.materials import load_materials
from pourwright.sheets.document import plan_pdf
from pourwright.sheets.pages.tickets import LOOK_AT_PATCH, ticket_pages
from tests.app.conftest import SMALL
from tests.sheets.printed import words_of
from tests.sheets.sample_plan import sample_document

TODAY = date(2026, 12, 1)
CLAY = '[master]\nmaterial = "sulfur-clay"\n'


def contact(lines: str, rubber: str = "silicone-platinum-a25"):
    return contact_of(read_job(SMALL + lines), load_materials().rubber[rubber])


@pytest.fixture
def written(tmp_path: Path) -> Callable[[str], Path]:
    def write(lines: str) -> Path:
        path = tmp_path / "job.toml"
        path.write_text(SMALL + lines, "utf8")
        return path

    return write


def test_clay_with_sulfur_is_refused_with_what_mends_it():
    with pytest.raises(UserError) as refused:
        refuse_sticking(contact(CLAY), TODAY)
    told = str(refused.value)
    assert "bare modelling clay with sulfur: no; sulfur" in told
    assert 'master.sealer = "shellac" (test first)' in told
    assert "a rubber that cures by tin (test first)" in told
    assert "\n" not in told


def test_what_is_tested_first_is_planned_and_blocks_the_ticket():
    found = contact("")
    refuse_sticking(found, TODAY)
    part = patch_part(found, TODAY)
    assert (part.verdict, part.blocked, part.passed) == ("test first", True, "")
    assert part.layers == "MDF with clear acrylic lacquer and petroleum jelly thinned with white spirit"


@pytest.mark.parametrize(
    ("day", "blocked"), [("2026-11-30", False), ("2026-12-01", False), ("2026-12-02", True)]
)
def test_a_patch_unlocks_on_its_day_and_outranks_the_table(day, blocked):
    for lines in ("[master]\n", CLAY):
        found = contact(f'{lines}patch_test = "{day}"\n')
        assert found.blocked(TODAY) is blocked
        assert patch_part(found, TODAY).passed == day
    if not blocked:
        refuse_sticking(found, TODAY)


def test_a_second_pour_meets_old_rubber():
    assert contact("").old_rubber is None
    assert contact("[mold]\non_old_rubber = true\n").old_rubber.verdict == "test first"
    bare = contact('[mold]\nway = "two-part"\nrelease = "none"\n[master]\nmaterial = "wax"\n')
    assert (bare.master.verdict, bare.old_rubber.verdict, bare.verdict) == ("fine", "no", "no")
    with pytest.raises(UserError, match="bare cured platinum silicone: no; cured silicone"):
        refuse_sticking(bare, TODAY)


@pytest.mark.parametrize(
    ("lines", "hint"),
    [
        ('[master]\nmaterial = "plywod"\n', "surface 'plywod': test first; did you mean 'plywood'"),
        ('[master]\nsealer = "shelac"\n', "sealer 'shelac': test first; did you mean 'shellac'"),
        ('[mold]\nrelease = "butter"\n', "release 'butter': test first; known are"),
    ],
)
def test_what_the_table_does_not_know_is_tested_first_and_said(written, lines, hint):
    texts = [found.line for found in check_job(written(lines)).findings]
    assert any(hint in text for text in texts)
    assert any(": test first; lay a test patch" in text for text in texts)


def test_check_and_mold_say_no_loudly(written):
    path = written(CLAY)
    stops = [found for found in check_job(path).findings if found.level == "stop"]
    assert ["sulfur" in found.text for found in stops] == [True]
    sheet = mold_job(path, now=datetime(2026, 12, 1, tzinfo=UTC)).sheet
    assert sheet.contact.verdict == "no"
    assert any(text.startswith("Do not pour: ") for text in sheet.warnings)
    assert any("Latex gloves" in text for text in sheet.cautions)


def test_a_vacuum_pot_keeps_batches_to_its_third(written):
    lines = "humidity = 0.5\nvacuum_pot = '1.5 l'\n[master]\nmaterial = 'wax'\n"
    sheet = mold_job(written(lines)).sheet
    # 1.5 l / 3 of 1150 kg/m3
    assert sheet.rubber.pot_batch_kg == pytest.approx(0.575)
    assert sheet.rubber.batch_kg <= 0.575
    assert sheet.rubber.batches * sheet.rubber.batch_kg == pytest.approx(sheet.rubber.mixed_kg)
    assert sheet.rubber.spare_kg > 0
    assert sheet.contact.verdict == "fine"


def events(lines: str, *, back: bool) -> list[tuple[str, datetime, datetime]]:
    job = read_job(SMALL + lines)
    setup = set_up(job, read_piece(job))
    diary, moment = Diary(working_hours(job)), datetime(2026, 12, 7, 8, tzinfo=UTC)
    work = master_back(setup, diary, moment) if back else master_ahead(setup, diary, moment)[0]
    made = master_events(setup, work, "")
    return [(e.title, datetime.fromisoformat(e.start), datetime.fromisoformat(e.end)) for e in made]


@pytest.mark.parametrize("back", [True, False])
def test_seal_dry_patch_cure_look_release_in_that_order(back):
    made = events("", back=back)
    titles = ["Seal the master", "The sealer cures", "Lay the test patch", LOOK, "Release on the master"]
    assert [title for title, _, _ in made] == titles
    hours = [(b[1] - a[2]).total_seconds() / 3600 for a, b in itertools.pairwise(made)]
    # the lacquer's two days, then the patch as long as this rubber cures
    assert (made[1][2] - made[1][1]).total_seconds() == 48 * 3600
    assert hours[1] >= 0
    assert hours[2] >= 6
    assert hours[3] >= 0


def test_what_is_done_is_not_in_the_calendar():
    done = '[master]\nsealed = "2026-12-01"\npatch_test = "2026-12-05"\n'
    assert [title for title, _, _ in events(done, back=False)] == ["Release on the master"]
    assert events('[master]\nmaterial = "wax"\n', back=True) == []


def test_nothing_goes_on_before_the_day_of_a_patch_or_a_coat_still_to_come():
    for lines, free in (
        ('[master]\nmaterial = "wax"\npatch_test = "2026-12-10"\n', 10),
        ('[master]\nsealed = "2026-12-09"\npatch_test = "2026-12-01"\n', 11),
    ):
        job = read_job(SMALL + lines)
        setup = set_up(job, read_piece(job))
        when = master_ahead(setup, Diary(working_hours(job)), datetime(2026, 12, 7, 8, tzinfo=UTC))[1]
        assert when.astimezone(working_hours(job).zone).day >= free


def test_the_rubber_ticket_is_blocked_until_the_patch_has_passed():
    document = sample_document()
    part = patch_part(contact(""), TODAY).model_dump()
    document["mold"]["patch"] = part
    (look,) = [event for event in document["calendar"] if "Pour the rubber" in event["title"]]
    document["calendar"].append({**look, "title": LOOK_AT_PATCH, "kind": "check"})
    rubber = ticket_pages(PlanDocument.model_validate(document))[0]
    assert rubber["blocked"].startswith("Do not mix: test patch not passed: do it by ")
    assert rubber["before"][0].endswith("Test patch cured, and off clean, on")
    document["mold"]["patch"] = part | {"blocked": False, "passed": "2026-11-30"}
    unlocked = ticket_pages(PlanDocument.model_validate(document))[0]
    assert unlocked["blocked"] == ""
    assert "came off clean on 2026-11-30" in unlocked["before"][0]


@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_a_blocked_ticket_of_six_batches_stays_on_one_page(paper):
    document = sample_document(paper=paper)
    document["mold"]["patch"] = patch_part(contact(""), TODAY).model_dump()
    assert len(document["mold"]["rubber"]["batches"]) == 6
    texts = words_of(plan_pdf(PlanDocument.model_validate(document)))
    (ticket,) = [text for text in texts if "Do not mix" in text]
    assert "level reached" in ticket


def test_a_casting_material_is_known_by_its_family_or_tested_first():
    shelves = load_materials()
    epoxy, concrete = shelves.resin["epoxy-slow-deep"], shelves.mineral["concrete-fine"]
    assert (cast_of(epoxy)[0].id, cast_of(concrete)[0].id) == ("epoxy", "concrete")
    found, hint = cast_of(dataclasses.replace(epoxy, id="polyestr", family="mystery"))
    assert found is None
    assert "test first; did you mean 'polyester'" in hint
