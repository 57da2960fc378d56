"""What is sawn for a block of 300 x 200 x 54 mm in 18 mm MDF, against arithmetic."""

import pytest

from pourwright.app import cut_job
from pourwright.app.cutting.offcut import OffcutAsked, offcut_job
from pourwright.foundation.errors import UserError

SHEET = """
[[sheet]]
board = "mdf"
thickness = "18 mm"
length = "{length}"
width = "{width}"
count = {count}
"""


@pytest.fixture
def sheet(written):
    return cut_job(written()).sheet


def test_the_master_is_three_boards(sheet) -> None:
    """54 mm are three boards of 18; 0.3 x 0.2 x 0.054 m3 of MDF of 750 kg/m3 weigh 2.43 kg."""
    sizes = {
        part.mark: (part.length_m, part.width_m) for part in sheet.list.parts if part.belongs == "master"
    }
    assert sizes == {f"master {n}": pytest.approx((0.3, 0.2)) for n in (1, 2, 3)}
    assert sheet.master.kind == "stacked"
    assert sheet.master.mass_kg == pytest.approx(2.43)
    assert sheet.master.glue_m2 == pytest.approx(2 * 0.3 * 0.2)
    # five faces: the lower one and four sides; the open one is screwed to the base board
    assert sheet.master.seal_m2 == pytest.approx(0.06 + 2 * 0.054 * 0.5)


def test_the_box_stands_round_its_rubber(sheet) -> None:
    """Inside 340 x 240, high 54 + 20; the sides lap the ends."""
    sizes = {part.mark: (part.length_m, part.width_m) for part in sheet.list.parts if part.belongs == "box"}
    assert sizes["front side"] == pytest.approx((0.376, 0.074))
    assert sizes["right end"] == pytest.approx((0.240, 0.074))
    assert sizes["base board"] == pytest.approx((0.376, 0.276))
    assert sizes["floor for casting"] == pytest.approx((0.376, 0.276))


def test_every_part_lies_on_a_sheet_once(sheet) -> None:
    placed = [part.mark for each in sheet.plan.sheets for part in each.parts]
    assert sorted(placed) == sorted(part.mark for part in sheet.list.parts)
    whole = "No sheet of MDF (18 mm) is stated"
    assert any(text.startswith(whole) for text in sheet.plan.words)


def test_every_cut_ends_at_a_part_or_at_what_is_left(sheet) -> None:
    """Where a cut begins and how long it is: it crosses no part."""
    one = sheet.plan.sheets[0]
    for cut in one.cuts:
        for part in one.parts:
            if cut.axis == "x":
                across = part.x_m + 1e-9 < cut.x_m < part.x_m + part.length_m - 1e-9
                along = cut.y_m < part.y_m + part.width_m - 1e-9 and part.y_m + 1e-9 < cut.y_m + cut.length_m
            else:
                across = part.y_m + 1e-9 < cut.y_m < part.y_m + part.width_m - 1e-9
                along = cut.x_m < part.x_m + part.length_m - 1e-9 and part.x_m + 1e-9 < cut.x_m + cut.length_m
            assert not (across and along), (cut, part)


def test_the_shops_own_sheets_are_used(written) -> None:
    found = cut_job(written(SHEET.format(length="1200 mm", width="600 mm", count=3))).sheet
    assert {each.name for each in found.plan.sheets} <= {f"sheet 1, number {n}" for n in (1, 2, 3)}
    assert {(each.length_m, each.width_m) for each in found.plan.sheets} == {(1.2, 0.6)}


@pytest.mark.parametrize(
    ("stock", "told"),
    [
        (SHEET.format(length="300 mm", width="250 mm", count=9), "is larger than every sheet"),
        (SHEET.format(length="450 mm", width="350 mm", count=1), "left over"),
        ('[saw]\nkerf = "80 mm"\n', "kerf"),
        (SHEET.format(length="-1 m", width="1 m", count=1), "length"),
        (SHEET.format(length="1 m", width="1 m", count=0), "count"),
    ],
)
def test_what_cannot_be_sawn_is_refused(written, stock: str, told: str) -> None:
    with pytest.raises(UserError, match=told):
        cut_job(written(stock))


def test_a_master_that_is_there_is_not_sawn(written) -> None:
    found = cut_job(written('[master]\nmass = "3 kg"\n')).sheet
    assert found.master is None
    assert {part.belongs for part in found.list.parts} == {"box"}


def test_steps_and_checks_name_the_numbers(sheet) -> None:
    """Inside 340 x 240 mm: the diagonal is 416 mm."""
    assert [step.number for step in sheet.assembly.steps] == list(range(1, len(sheet.assembly.steps) + 1))
    assert "340 mm × 240 mm" in sheet.assembly.checks[0]
    assert "416 mm" in sheet.assembly.checks[0]


def test_the_folder_holds_paper_and_pictures(written, tmp_path) -> None:
    report = cut_job(written(), out=tmp_path / "cut")
    names = {path.relative_to(tmp_path / "cut").as_posix() for path in report.files}
    assert {"cut.json", "cut.pdf", "drawings/assembly.svg"} <= names


def test_a_board_that_is_planed_is_sawn_from_the_sheets_there_are(written) -> None:
    """50 mm are 18, 18, and 14 of 18; nothing but the sheet that is stated is taken."""
    job = written(SHEET.format(length="2440 mm", width="1220 mm", count=1))
    job.write_text(job.read_text().replace("54 mm", "50 mm"))
    found = cut_job(job).sheet
    assert [each.name for each in found.plan.sheets] == ["sheet 1"]
    assert found.list.parts[2].thickness_m == pytest.approx(0.014)


@pytest.mark.parametrize(
    ("more", "boards"),
    [
        # 54 mm are two of 25 and one of 4; three of 18; of 12 mm in the box, four and one of 6
        ('[[sheet]]\nboard = "mdf"\nthickness = "25 mm"\ncount = 3\n', [0.025, 0.025, 0.004]),
        ('[[sheet]]\nboard = "mdf"\nthickness = "25 mm"\n[[sheet]]\nboard = "mdf"\n', [0.018] * 3),
        ('[[sheet]]\nboard = "mdf"\nthickness = "0.001 mm"\n', [0.018] * 3),
        ("", [0.012] * 4 + [0.006]),
    ],
)
def test_the_master_is_of_boards_that_the_shop_has(written, more: str, boards: list[float]) -> None:
    job = written(more)
    if not more:
        job.write_text(job.read_text().replace("[mold]", '[mold]\nboard_thickness = "12 mm"'))
    parts = [part for part in cut_job(job).sheet.list.parts if part.belongs == "master"]
    assert [part.thickness_m for part in parts] == pytest.approx(boards)


def test_sheets_that_the_mold_says_are_there_hold_what_no_usual_one_does(written) -> None:
    """A board of 2.5 m is longer than a usual sheet of 2.44 m."""
    job = written()
    sheet = '[mold]\nboard_sheet = ["2070 mm", "2800 mm"]'
    job.write_text(job.read_text().replace("300 mm", "2500 mm").replace("[mold]", sheet))
    assert {(each.length_m, each.width_m) for each in cut_job(job).sheet.plan.sheets} == {(2.8, 2.07)}


def test_a_screwed_master_stands_on_its_board_by_screws_that_are_placed(sheet) -> None:
    titles = [step.title for step in sheet.assembly.steps]
    assert titles[0] == "Glue up the master"
    step = next(step for step in sheet.assembly.steps if step.title == "Screw the master down")
    number = sheet.assembly.checks[-1].split("held: ")[1].split()[0]
    assert step.text.startswith(f"{number} wood screws")
    assert step.marks == ["base board"]


def test_a_skin_has_no_box_to_check(written) -> None:
    job = written()
    job.write_text(job.read_text().replace("[mold]", '[mold]\nway = "skin"'))
    (check,) = cut_job(job).sheet.assembly.checks
    assert "master has its release" in check
    assert not any(word in check for word in ("box", "panel", "base"))


def test_an_offcut_too_small_for_all_is_not_cut(written) -> None:
    found = offcut_job(written(), OffcutAsked("5 mm × 5 mm")).sheet
    assert found.plan.sheets == []
    assert found.plan.words == ["None of the 9 parts of MDF, 18 mm fits on it."]


def test_a_drill_is_the_same_in_the_steps_and_in_the_drawings(written) -> None:
    """4 mm are 0.157 in, which no sixteenth is near."""
    job = written()
    job.write_text(job.read_text().replace("format = 1", 'format = 1\nunits = "us"'))
    drill = next(step for step in cut_job(job).sheet.assembly.steps if step.title == "Drill")
    assert "for the shank, 0.1" in drill.text


def test_in_two_pours_nothing_is_laid_on_bars(written) -> None:
    job = written()
    job.write_text(job.read_text().replace('method = "screwed"', 'way = "two-part"'))
    assert not any("bars" in check for check in cut_job(job).sheet.assembly.checks)
