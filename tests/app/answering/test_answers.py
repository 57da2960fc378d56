"""The cheap answers are those of the check and of the fill; what is old says so."""

from pathlib import Path
from typing import Any

import pytest

from pourwright.app import check_job, fill_job
from pourwright.app.answering.answers import answers_of
from pourwright.app.answering.desk import Desk
from pourwright.app.answering.document import Answers
from tests.app.answering.conftest import CYLINDER, folder_of


def numbers(answers: Answers, section: str) -> dict[str, float | None]:
    return {one.key: one.value for one in answers.sections[section].numbers}


def changed(folder: Path, old: str, new: str) -> None:
    text = (folder / "job.toml").read_text("utf8")
    assert old in text
    (folder / "job.toml").write_text(text.replace(old, new), "utf8")


def test_numbers_and_findings_are_those_of_the_check(lamp: Path, desk: Desk) -> None:
    answers, report = answers_of(desk, lamp), check_job(lamp / "job.toml")
    assert answers.state == "ready"
    piece, mold = numbers(answers, "piece"), numbers(answers, "mold")
    assert report.mold is not None
    assert piece["volume_m3"] == report.piece.volume_m3
    assert piece["mass_kg"] == report.piece.mass_kg
    assert mold["rubber_volume_m3"] == report.mold.rubber.volume_m3
    assert mold["rubber_mixed_kg"] == report.mold.rubber.mixed_kg
    assert mold["weight_needed_kg"] == report.mold.hold_down.weight_needed_kg
    assert mold["filled_mass_kg"] == report.mold.filled_mass_kg
    assert [one.text for one in answers.findings] == [one.line for one in report.findings]


def test_bands_and_batches_are_those_of_the_fill(stool: Path, desk: Desk) -> None:
    answers, told = answers_of(desk, stool), fill_job(stool / "job.toml").sheet
    assert told.laid is not None
    assert told.batches is not None
    for band, laid in zip(answers.fill.bands, told.laid.bands, strict=True):
        assert (band.name, band.glass_kg, band.resin_kg) == (laid.name, laid.glass_kg, laid.resin_kg)
        assert band.upper.standing_m == pytest.approx(laid.to_standing_m, abs=1e-12)
    assert [band.batches for band in answers.fill.bands] == [len(one.batches) for one in told.batches.bands]
    assert numbers(answers, "pour")["mixed_kg"] == pytest.approx(told.laid.resin_kg)


def test_words_are_in_the_units_of_the_job(lamp: Path, desk: Desk) -> None:
    texts = [one.text for one in answers_of(desk, lamp).sections["piece"].numbers]
    assert "4 in" in texts
    assert not any(text.endswith(("mm", "kg")) for text in texts)


def test_what_is_bought_is_price_times_mass(column: Path, desk: Desk) -> None:
    answers = answers_of(desk, column)
    fill, mold, paper = (numbers(answers, name) for name in ("fill", "mold", "paper"))
    each = 10 * (fill["mixed_kg"] or 0.0) + (fill["glass_kg"] or 0.0)
    assert paper["further_piece_EUR"] == pytest.approx(each, abs=0.01)
    # the job has no price for boards: they are left out, and it is said
    assert paper["first_piece_EUR"] == pytest.approx(each + 20 * (mold["rubber_mixed_kg"] or 0.0), abs=0.01)
    assert any("no price" in note for note in answers.sections["paper"].notes)


def test_a_refused_job_keeps_the_last_good_answers_and_marks_them_old(column: Path, desk: Desk) -> None:
    before = answers_of(desk, column)
    changed(column, 'to = "100 mm"', 'to = "900 mm"')
    after = answers_of(desk, column)
    assert after.state == "error"
    assert after.error is not None
    assert after.error.band == 1
    assert "900 mm" in after.error.what
    assert after.old
    assert after.sections == before.sections
    changed(column, 'to = "900 mm"', 'to = "100 mm"')
    assert answers_of(desk, column) == before


def test_a_job_that_was_never_good_has_an_error_alone(tmp_path: Path, desk: Desk) -> None:
    answers = answers_of(desk, folder_of("format = 1\nnonsense", tmp_path / "bad"))
    assert answers.state == "error"
    assert answers.sections == {}


def test_gypsum_has_powder_and_water_and_no_bands(tmp_path: Path, desk: Desk) -> None:
    text = CYLINDER.replace("epoxy-slow-deep", "gypsum-casting")
    text = text[: text.index("[[band]]")] + text[text.index("[shop]") :]
    folder = folder_of(text, tmp_path / "gypsum")
    answers, report = answers_of(desk, folder), check_job(folder / "job.toml")
    assert answers.fill.bands == []
    assert (numbers(answers, "fill")["water_kg"] or 0.0) > 0.0
    assert numbers(answers, "piece")["mass_kg"] == report.piece.mass_kg
    assert [one.text for one in answers.findings] == [one.line for one in report.findings]


def test_a_shape_is_read_once_however_often_the_rest_changes(
    column: Path, desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    from pourwright.app.answering import desk as room

    read: list[Any] = []
    original = room.read_body
    monkeypatch.setattr(room, "read_body", lambda job: read.append(job) or original(job))
    answers_of(desk, column)
    changed(column, '"22 degC"', '"18 degC"')
    answers_of(desk, column)
    assert len(read) == 1
    changed(column, '["60 mm", "400 mm"]', '["60 mm", "410 mm"]')
    assert numbers(answers_of(desk, column), "piece")["height_m"] == pytest.approx(0.41)
    assert len(read) == 2
