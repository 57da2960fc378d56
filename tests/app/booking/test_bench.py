"""The bench's side of the book: what a phone needs, and what it sends, once however often it is sent."""

import hashlib
import uuid
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from pourwright.app.benching.journal import JOURNAL, read_journal
from pourwright.app.booking.bench import Answer, FromBench, bench_of, take_entries
from pourwright.app.booking.entering import Said, enter
from pourwright.app.booking.logging import log_job
from pourwright.app.booking.photos import keep_photo_named
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.records import BOOK_FILE
from pourwright.records.moments import now
from tests.app.booking.conftest import write_plan
from tests.records.making import PHOTO


def made(stool: Path, kind: str, **more: object) -> FromBench:
    """An entry as a phone makes it, under the plan of today."""
    given = {"pour": 1, "casting": 1, "at": now()} | more
    given |= {"id": str(uuid.uuid4()), "plan": bench_of(stool)["plan"], "kind": kind}
    return FromBench(**given)  # type: ignore[arg-type]


def kept(answers: tuple[Answer, ...]) -> list[tuple[bool, bool]]:
    return [(answer.kept, answer.new) for answer in answers]


def test_a_bench_begins_with_getting_ready(stool: Path) -> None:
    bench = bench_of(stool)
    assert (bench["job"], bench["variant"], bench["casting"], bench["next"]) == (
        "stool",
        "main",
        1,
        "1.ready",
    )
    plan = (stool / "plan" / "plan.json").read_bytes()
    assert bench["plan"] == hashlib.sha256(plan).hexdigest()
    assert bench["units"]["mass"] == [{"label": "g", "si": 0.001}, {"label": "kg", "si": 1.0}]
    assert bench["entries"] == []


def test_what_was_entered_is_told_and_the_next_step_follows(stool: Path) -> None:
    ready = made(stool, "step", text="ready for pour 1")
    weighed = made(stool, "weigh_a", value=1.159, text="batch 1 of 3")
    assert kept(take_entries(stool, [ready, weighed])) == [(True, True)] * 2
    bench = bench_of(stool)
    assert bench["next"] == "1.1.weigh_b"
    assert [(one["kind"], one["shown"], one["source"]) for one in bench["entries"]] == [
        ("step", "", "bench"),
        ("weigh_a", "1.16 kg", "bench"),
    ]


def test_what_is_sent_again_is_kept_once(stool: Path) -> None:
    entries = [made(stool, "weigh_a", value=1.159), made(stool, "weigh_b", value=0.522)]
    assert kept(take_entries(stool, entries)) == [(True, True)] * 2
    assert kept(take_entries(stool, entries)) == [(True, False)] * 2
    assert kept(take_entries(stool, [entries[1], entries[1]])) == [(True, False)] * 2
    assert len(read_journal(stool).entries) == 2
    # the book is gone: the journal still knows them
    (stool.parent / BOOK_FILE).unlink()
    assert kept(take_entries(stool, entries)) == [(True, False)] * 2
    assert len(bench_of(stool)["entries"]) == 2


def test_one_that_is_refused_holds_back_no_other(stool: Path) -> None:
    later = made(stool, "weigh_b", value=0.5, at=now() + timedelta(hours=1))
    entries = [made(stool, "weigh_a", value=-1.0), later, made(stool, "note", text="warm in here")]
    answers = take_entries(stool, entries)
    assert kept(answers) == [(False, False), (False, False), (True, True)]
    assert "cannot be" in str(answers[0].error)
    assert "still to come" in str(answers[1].error)


def test_a_correction_keeps_the_old_value(stool: Path) -> None:
    wrong = made(stool, "weigh_a", value=11.59)
    right = replace(made(stool, "weigh_a", value=1.159), replaces=wrong.id, at=wrong.at)
    # an hour without network: both come at once
    assert kept(take_entries(stool, [wrong, right])) == [(True, True)] * 2
    old, new = bench_of(stool)["entries"]
    assert (old["value"], old["corrected_by"]) == (11.59, right.id)
    assert (new["value"], new["replaces"], new["corrected_by"]) == (1.159, wrong.id, None)


def test_a_note_takes_back_what_was_pressed_by_mistake(stool: Path) -> None:
    take_entries(stool, [made(stool, "step", text="ready for pour 1")])
    gel = made(stool, "gel")
    take_entries(stool, [gel])
    back = replace(made(stool, "note", text="taken back: gelled"), replaces=gel.id, at=gel.at)
    assert kept(take_entries(stool, [back])) == [(True, True)]
    bench = bench_of(stool)
    assert bench["next"] == "1.1.weigh_a"
    assert [one["kind"] for one in bench["entries"]] == ["step", "gel", "note"]
    # it can gel again
    assert kept(take_entries(stool, [made(stool, "gel")])) == [(True, True)]


def test_the_same_from_the_terminal_is_asked_about(stool: Path) -> None:
    said = Said(kind="weigh_a", value=1.16, source="terminal")
    enter(stool, stool.parent / BOOK_FILE, [said])
    same = made(stool, "weigh_a", value=1.159)
    (answer,) = take_entries(stool, [same])
    assert "has this already" in str(answer.error)
    assert kept(take_entries(stool, [replace(same, again=True)])) == [(True, True)]


def test_a_new_plan_while_the_phone_is_away_loses_nothing(stool: Path) -> None:
    early = made(stool, "weigh_a", value=1.159)
    write_plan(stool, title="Hourglass stool, second try")
    assert kept(take_entries(stool, [early])) == [(True, True)]
    assert bench_of(stool)["plan"] != early.plan
    nobodys = replace(made(stool, "weigh_b", value=0.5), plan="0" * 64)
    (answer,) = take_entries(stool, [nobodys])
    assert "no longer there" in str(answer.error)


def test_an_entry_of_another_job_is_refused(stool: Path, shop: Path) -> None:
    write_plan(shop / "lamp", title="Lamp")
    foreign = replace(made(shop / "lamp", "weigh_a", value=1.0))
    (answer,) = take_entries(stool, [foreign])
    assert "entered for the job lamp" in str(answer.error)
    assert not (stool / JOURNAL).exists()


def test_a_photo_is_sent_once_and_then_named(stool: Path) -> None:
    sha256 = hashlib.sha256(PHOTO).hexdigest()
    named = made(stool, "photo", photo=sha256)
    (answer,) = take_entries(stool, [named])
    assert "is not there" in str(answer.error)
    for _ in range(2):
        keep_photo_named(stool, sha256, PHOTO)
    assert kept(take_entries(stool, [named])) == [(True, True)]
    assert len(list((stool / "photos").iterdir())) == 1
    assert bench_of(stool)["entries"][0]["photo"] == sha256
    with pytest.raises(UserError, match="not the photo that was announced"):
        keep_photo_named(stool, "0" * 64, PHOTO)
    with pytest.raises(UserError, match="no photo"):
        keep_photo_named(stool, hashlib.sha256(b"<html>").hexdigest(), b"<html>")


@pytest.mark.parametrize("name", ["*" * 64, "../" * 20, "", "0" * 63])
def test_no_photo_is_looked_for_outside_its_folder(stool: Path, name: str) -> None:
    keep_photo_named(stool, hashlib.sha256(PHOTO).hexdigest(), PHOTO)
    (answer,) = take_entries(stool, [made(stool, "photo", photo=name)])
    assert not answer.kept


def test_a_piece_that_is_out_is_over_and_the_next_one_begins(stool: Path) -> None:
    take_entries(stool, [made(stool, "poured", value=2.5), made(stool, "demolded", pour=0)])
    bench = bench_of(stool)
    assert (bench["casting"], bench["over"], bench["last_casting"]) == (1, True, 2)
    following = bench_of(stool, casting=2)
    assert (following["next"], following["entries"], following["over"]) == ("1.ready", [], False)
    with pytest.raises(NotThereError, match="no piece 3"):
        bench_of(stool, casting=3)


def test_a_disk_that_takes_nothing_refuses_all_of_it(stool: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    entry = made(stool, "weigh_a", value=1.0)
    monkeypatch.setattr("pourwright.app.benching.journal._write_whole", full)
    with pytest.raises(UserError, match="journal cannot be written"):
        take_entries(stool, [entry])
    monkeypatch.undo()
    assert kept(take_entries(stool, [entry])) == [(True, True)]


def test_the_first_variant_with_a_plan_is_shown(stool: Path) -> None:
    for name in ("clear", "green"):
        write_plan(stool / "plan" / name, variant=name)
        (stool / "plan" / name / "plan" / "plan.json").rename(stool / "plan" / name / "plan.json")
    (stool / "plan" / "plan.json").unlink()
    assert bench_of(stool)["variant"] == "clear"
    assert bench_of(stool, "green")["variant"] == "green"


def test_two_jobs_with_the_very_same_plan_keep_their_pours_apart(stool: Path, shop: Path) -> None:
    take_entries(stool, [made(stool, "poured", value=2.5)])
    write_plan(shop / "copy")
    assert bench_of(shop / "copy")["plan"] == bench_of(stool)["plan"]
    assert bench_of(shop / "copy")["entries"] == []
    assert kept(take_entries(shop / "copy", [made(shop / "copy", "poured", value=1.5)])) == [(True, True)]
    # the plan beside the job is made anew: the book tells whose it was
    for folder in (stool, shop / "copy"):
        write_plan(folder, title=f"Second try at {folder.name}")
    logs = {folder.name: log_job(folder).to_json()["pours"] for folder in (stool, shop / "copy")}
    assert {name: [pour["poured_kg"] for pour in pours] for name, pours in logs.items()} == {
        "stool": [2.5],
        "copy": [1.5],
    }
    late = replace(made(shop / "copy", "caught", value=0.1), plan=logs["copy"][0]["plan"])
    assert kept(take_entries(shop / "copy", [late])) == [(True, True)]


def test_two_phones_at_one_step_are_one_entry_or_a_question(stool: Path) -> None:
    first = made(stool, "weigh_a", value=1.159, text="batch 1 of 3, as planned")
    assert kept(take_entries(stool, [first])) == [(True, True)]
    same = replace(first, at=first.at + timedelta(seconds=20))
    assert kept(take_entries(stool, [same])) == [(True, False)]
    for other in ({"value": 1.140}, {"text": "batch 1 of 3"}, {"kind": "weigh_b"}):
        (answer,) = take_entries(stool, [replace(same, **other)])
        assert (answer.kept, answer.new) == (False, False)
        assert "another phone has entered something else for this step: A weighed" in str(answer.error)
    (entry,) = bench_of(stool)["entries"]
    assert entry["value"] == 1.159
    another = replace(same, id=str(uuid.uuid4()), value=1.140, again=True)
    assert kept(take_entries(stool, [another])) == [(True, True)]
    (weighed,) = {one["kind"] for one in bench_of(stool)["entries"]}
    assert (weighed, len(bench_of(stool)["entries"])) == ("weigh_a", 2)
