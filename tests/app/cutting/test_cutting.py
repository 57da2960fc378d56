"""What is sawn for a block of 300 x 200 x 54 mm in 18 mm MDF, against arithmetic."""

import pytest

from pourwright.app import cut_job
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
