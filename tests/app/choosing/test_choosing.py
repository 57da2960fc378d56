"""A choice changes one key of the file and nothing else; two hands on it are both heard."""

import tomllib
from pathlib import Path

import pytest

from pourwright.app.choosing.choosing import choose, choose_bands, put_text, redo, undo
from pourwright.app.choosing.conflict import Conflict
from pourwright.app.choosing.document import choices_of
from pourwright.foundation.errors import UserError
from tests.app.choosing.conftest import JOB, text_in


def changed_lines(before: str, after: str) -> tuple[list[str], list[str]]:
    old, new = before.splitlines(), after.splitlines()
    return [line for line in old if line not in new], [line for line in new if line not in old]


def field(folder: Path, key: str, variant: str | None = None) -> dict:
    sections = choices_of(folder, variant)["sections"]
    return next(each for section in sections for each in section["fields"] if each["key"] == key)


def test_a_choice_changes_its_line_alone_and_keeps_the_comment(folder: Path) -> None:
    said = choose(folder, "mold.wall", "3/4 in", "19 mm")
    gone, come = changed_lines(JOB, text_in(folder))
    assert gone == ['wall = "19 mm"  # thin, it is a small piece']
    assert come == ['wall = "3/4 in"  # thin, it is a small piece']
    assert "19 mm → 3/4 in" in said


def test_a_new_key_stands_with_its_table_and_above_the_comment_of_the_next(folder: Path) -> None:
    choose(folder, "mold.cover", "6 mm", "")
    assert 'a small piece\ncover = "6 mm"\n\n# where I work\n[shop]' in text_in(folder)


def test_a_new_table_is_written_where_the_order_of_work_has_it(folder: Path) -> None:
    choose(folder, "fill.allowance", "8 %", "")
    assert 'neat = true\n\n[fill]\nallowance = "8 %"\n\n[mold]' in text_in(folder)


def test_back_to_the_default_takes_the_line_out_and_leaves_its_comment(folder: Path) -> None:
    choose(folder, "mold.wall", "", "19 mm")
    gone, come = changed_lines(JOB, text_in(folder))
    assert gone == ['wall = "19 mm"  # thin, it is a small piece']
    assert come == ["# thin, it is a small piece"]
    assert field(folder, "mold.wall")["text"] == ""


def test_kinds_are_written_as_the_file_holds_them(folder: Path) -> None:
    for key, value in (
        ("mold.space_blocks", True), ("mold.casts", "12"), ("fill.bucket_loss", "0.03"),
        ("mold.board_sheet", "2440 mm, 1220 mm"), ("shop.working_days", "mon, wed"),
        ("shape.up", "0, 0.5, 1"),
    ):  # fmt: skip
        choose(folder, key, value, "")
    raw = tomllib.loads(text_in(folder))
    assert raw["mold"]["space_blocks"] is True
    assert raw["mold"]["casts"] == 12
    assert raw["fill"]["bucket_loss"] == 0.03
    assert raw["mold"]["board_sheet"] == ["2440 mm", "1220 mm"]
    assert raw["shop"]["working_days"] == ["mon", "wed"]
    assert raw["shape"]["up"] == [0.0, 0.5, 1.0]


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("mold.wall", "21"), ("mold.wall", "21 kg"), ("mold.joint", "glue"), ("mold.casts", "-1"),
        ("mold.casts", "0"), ("casting.material", "chewing-gum"), ("limits.probability", "2"),
        ("shop.humidity", "120 %"), ("start", "soon"), ("shop.time_zone", "Nowhere/Else"),
        ("shop.working_hours", "18:00-08:00"), ("mold.space_blocks", "perhaps"), ("shape.up", "0, 0, 0"),
        ("title", "x" * 101),
    ],
)  # fmt: skip
def test_a_refused_choice_changes_nothing_and_names_its_field(folder: Path, key: str, value: str) -> None:
    seen = field(folder, key)["text"]
    with pytest.raises(UserError) as refusal:
        choose(folder, key, value, seen)
    assert refusal.value.where == key
    assert text_in(folder) == JOB


def test_a_required_key_cannot_be_taken_out(folder: Path) -> None:
    with pytest.raises(UserError, match="material") as refusal:
        choose(folder, "casting.material", None, "epoxy-slow-deep")
    assert refusal.value.where == "casting.material"
    assert text_in(folder) == JOB


def test_two_tabs_on_different_keys_both_hold(folder: Path) -> None:
    choose(folder, "mold.wall", "25 mm", "19 mm")
    choose(folder, "title", "Foot of a lamp", "Lamp foot")
    raw = tomllib.loads(text_in(folder))
    assert (raw["mold"]["wall"], raw["title"]) == ("25 mm", "Foot of a lamp")


def test_two_tabs_on_one_key_are_a_conflict_that_tells_all_three(folder: Path) -> None:
    choose(folder, "mold.wall", "25 mm", "19 mm")
    with pytest.raises(Conflict) as conflict:
        choose(folder, "mold.wall", "15 mm", "19 mm")
    assert conflict.value.details == {"file": "25 mm", "seen": "19 mm", "wanted": "15 mm"}
    assert tomllib.loads(text_in(folder))["mold"]["wall"] == "25 mm"
    # both wanted the same: nothing is lost, so nothing is asked
    assert choose(folder, "mold.wall", "25 mm", "19 mm") == ""


def test_temperatures_by_day_and_night_take_the_place_of_the_one(folder: Path) -> None:
    choose(folder, "shop.night_temperature", "16 degC", "")
    shop = tomllib.loads(text_in(folder))["shop"]
    assert shop == {
        "day_temperature": "22 degC", "night_temperature": "16 degC", "time_zone": "Europe/Berlin",
    }  # fmt: skip
    choose(folder, "shop.day_temperature", "", "22 degC")
    assert tomllib.loads(text_in(folder))["shop"]["temperature"] == "16 degC"


def test_the_first_price_brings_its_currency_and_the_last_takes_the_table_along(folder: Path) -> None:
    choose(folder, "prices.resin", "14.80 EUR/kg", "")
    assert tomllib.loads(text_in(folder))["prices"] == {"resin": "14.80 EUR/kg", "currency": "EUR"}
    choose(folder, "prices.resin", "", "14.80 EUR/kg")
    assert text_in(folder) == JOB


def test_bands_that_stay_keep_their_comments(folder: Path) -> None:
    seen = [band["raw"] for band in choices_of(folder)["bands"]]
    middle = {"to": "40 mm", "grade": "fine", "colour": "blue"}
    choose_bands(folder, [seen[0], middle, seen[1]], seen)
    text = text_in(folder)
    assert tomllib.loads(text)["band"] == [seen[0], middle, seen[1]]
    assert [line for line in JOB.splitlines() if line not in text.splitlines()] == []


def test_a_moved_border_keeps_the_comments_of_its_band(folder: Path) -> None:
    seen = [band["raw"] for band in choices_of(folder)["bands"]]
    choose_bands(folder, [{**seen[0], "to": "35 mm"}, seen[1]], seen)
    assert changed_lines(JOB, text_in(folder)) == (['to = "30 mm"'], ['to = "35 mm"'])
    with pytest.raises(Conflict):
        choose_bands(folder, [seen[1]], seen)


def test_bands_can_go_and_come_again(folder: Path) -> None:
    seen = [band["raw"] for band in choices_of(folder)["bands"]]
    choose_bands(folder, [], seen)
    assert "band" not in tomllib.loads(text_in(folder))
    choose_bands(folder, seen, [])
    assert tomllib.loads(text_in(folder)) == tomllib.loads(JOB)
    with pytest.raises(UserError, match="does not lie above"):
        choose_bands(folder, [seen[0], {"to": "10 mm", "neat": True}], seen)


VARIANTS = JOB + '\n[[variant]]\nname = "thick"\nmold.wall = "30 mm"\n\n[[variant]]\nname = "plain"\n'


def test_a_line_of_a_variant_is_changed_there_and_any_other_in_the_file(folder: Path) -> None:
    (folder / "job.toml").write_text(VARIANTS, "utf8")
    assert field(folder, "mold.wall", "thick")["in_variant"]
    assert not field(folder, "mold.wall", "plain")["in_variant"]
    choose(folder, "mold.wall", "28 mm", "30 mm", variant="thick")
    choose(folder, "mold.wall", "18 mm", "19 mm", variant="plain")
    choose(folder, "mold.base", "15 mm", "", variant="plain", only_here=True)
    raw = tomllib.loads(text_in(folder))
    assert raw["mold"] == {"wall": "18 mm"}
    assert raw["variant"] == [
        {"name": "thick", "mold": {"wall": "28 mm"}}, {"name": "plain", "mold": {"base": "15 mm"}},
    ]  # fmt: skip


def test_bands_of_a_variant_of_its_own(folder: Path) -> None:
    (folder / "job.toml").write_text(VARIANTS, "utf8")
    seen = [band["raw"] for band in choices_of(folder, "plain")["bands"]]
    choose_bands(folder, [{"to": "top", "neat": True}], seen, variant="plain", only_here=True)
    assert choices_of(folder, "plain")["bands_in_variant"]
    assert len(choices_of(folder, "thick")["bands"]) == 2
    assert len(choices_of(folder, "plain")["bands"]) == 1


def test_the_whole_text(folder: Path) -> None:
    sha = choices_of(folder)["sha256"]
    with pytest.raises(UserError, match="unknown key 'walls'") as refusal:
        put_text(folder, JOB.replace("wall =", "walls ="), sha)
    assert refusal.value.where == "line 23 mold.walls"
    put_text(folder, JOB.replace("19 mm", "18 mm").replace("\n", "\r\n"), sha)
    assert text_in(folder) == JOB.replace("19 mm", "18 mm")
    with pytest.raises(Conflict) as conflict:
        put_text(folder, JOB, sha)
    assert conflict.value.details["file"] == JOB.replace("19 mm", "18 mm")


def test_a_file_of_another_editor_keeps_its_line_ends_and_its_mark(folder: Path) -> None:
    (folder / "job.toml").write_bytes(("\ufeff" + JOB.replace("\n", "\r\n")).encode())
    choose(folder, "mold.wall", "18 mm", "19 mm")
    wanted = "\ufeff" + JOB.replace('wall = "19 mm"', 'wall = "18 mm"').replace("\n", "\r\n")
    assert (folder / "job.toml").read_bytes() == wanted.encode()


def test_a_broken_hand_edit_is_told_with_its_line_and_can_be_taken_back(folder: Path) -> None:
    choices_of(folder)
    broken = JOB.replace('title = "Lamp foot"', 'title = "Lamp foot')
    (folder / "job.toml").write_text(broken, "utf8")
    document = choices_of(folder)
    assert document["broken"]["faults"][0]["line"] == 3
    assert document["broken"]["last_good"] == JOB
    assert document["title"] == "Lamp foot"
    with pytest.raises(UserError, match="cannot be read"):
        choose(folder, "mold.wall", "25 mm", "19 mm")
    assert text_in(folder) == broken
    assert "cannot be read" in undo(folder)
    assert text_in(folder) == JOB
    redo(folder)
    assert text_in(folder) == broken


def test_an_unknown_key_by_hand_names_its_line(folder: Path) -> None:
    (folder / "job.toml").write_text(JOB.replace("wall =", "wal ="), "utf8")
    fault = choices_of(folder)["broken"]["faults"][0]
    assert (fault["line"], fault["where"]) == (23, "mold.wal")
    assert "wall" in fault["todo"]
    # nothing good was ever seen, so nothing is offered and no field is made up
    assert choices_of(folder)["broken"]["last_good"] is None


def test_a_folder_that_cannot_be_written_still_shows_its_choices(folder: Path) -> None:
    (folder / "history.jsonl").mkdir()
    assert field(folder, "mold.wall")["text"] == "19 mm"
    with pytest.raises(UserError, match="cannot be written"):
        choose(folder, "mold.wall", "25 mm", "19 mm")
    assert text_in(folder) == JOB
