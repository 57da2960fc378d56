"""The box of a job: its keys, what is refused, the densest liquid of all variants, and what is told."""

from io import StringIO
from pathlib import Path

import pytest
from rich.console import Console

from pourwright.app.molding.box import box_look
from pourwright.app.molding.look import look_at_mold
from pourwright.app.molding.rubber import rubber_look
from pourwright.app.shaping.piece import read_piece
from pourwright.app.which import chosen_variants
from pourwright.cli.mold_box_lines import box_lines
from pourwright.cli.words import Words
from pourwright.foundation.errors import UserError
from pourwright.foundation.progress import SILENT
from pourwright.jobs import load_job
from pourwright.jobs.mold_box import Box

JOB = """format = 1
[shape]
box = ["{size}"]
[casting]
material = "{material}"
[shop]
temperature = "22 degC"
[mold]
{mold}
"""
VARIANTS = """[[variant]]
name = "clear"
[[variant]]
name = "grey"
casting.material = "concrete-fine"
"""
SMALL, WIDE, TALL = "200 mm, 160 mm, 120 mm", "700 mm, 300 mm, 400 mm", "250 mm, 250 mm, 1100 mm"
G = 9.80665


@pytest.fixture
def told(tmp_path: Path):
    """The box of a job."""

    def tell(mold: str = "", size: str = SMALL, material: str = "epoxy-slow-deep", more: str = "") -> Box:
        path = tmp_path / "job.toml"
        size = size.replace(", ", '", "')
        path.write_text(more + JOB.format(size=size, material=material, mold=mold), "utf8")
        job = chosen_variants(load_job(path), None)[0]
        found = box_look(look_at_mold(job, read_piece(job)), SILENT)
        assert found is not None
        return found

    return tell


def lines(box: Box, units: str = "metric") -> str:
    """What the terminal shows."""
    paper = Console(file=StringIO(), width=110)
    for table in box_lines(box.model_dump(), Words(units)):
        paper.print(table)
    return " ".join(paper.file.getvalue().split())


def test_a_small_box_needs_no_battens_and_two_screws_a_corner(told) -> None:
    box = told()
    assert [panel.battens for panel in box.panels] == [0, 0]
    assert box.fastenings[0].means == "screws"
    assert box.fastenings[0].recommended
    assert "no battens" in lines(box)
    assert all(panel.board_instead_m is None for panel in box.panels)
    assert box.warnings == []


def test_one_thing_is_taken_and_the_others_told(told) -> None:
    box = told()
    assert [found.recommended for found in box.fastenings] == [True, False, False]
    assert {found.means for found in box.fastenings} == {"screws", "clamps", "bands"}


@pytest.mark.parametrize(
    ("joint", "first"),
    [("butt", "screws"), ("rabbet", "screws"), ("housing", "screws"), ("flange", "clamps")],
)
def test_the_joint_of_the_job(told, joint, first) -> None:
    box = told(f'joint = "{joint}"')
    assert box.joint == joint
    assert box.fastenings[0].means == first


def test_a_housing_wants_fewer_screws_than_a_butt_joint(told) -> None:
    counts = {
        joint: len(
            told(f'joint = "{joint}"\nboard = "melamine-board"', "250 mm, 250 mm, 600 mm").fastenings[0].at_m
        )
        for joint in ("butt", "housing")
    }
    assert counts["housing"] <= counts["butt"]


def test_a_limit_of_the_job_decides(told) -> None:
    strict, easy = (told(f'bulge_limit = "{limit}"', WIDE) for limit in ("0.5 mm", "20 mm"))
    assert easy.panels[0].battens == 0
    assert strict.panels[0].battens
    assert strict.panels[0].held_m is not None
    assert strict.panels[0].held_m <= 0.5e-3
    assert "hold" in strict.warnings[0]


def test_wide_sides_get_upright_battens_and_tall_ones_level_ones(told) -> None:
    assert told("", WIDE, "concrete-fine").panels[0].batten_lie == "upright"
    assert told("", TALL, "concrete-fine").panels[0].batten_lie == "level"


def test_far_too_thin_says_so_instead_of_a_wild_figure(told) -> None:
    box = told('board_thickness = "3 mm"', WIDE)
    panel = box.panels[0]
    assert panel.bulge_m is None
    assert "far too thin" in panel.bulge_reason
    assert "far too thin" in box.warnings[0]
    assert "far too thin" in lines(box)


def test_creep_and_damp_are_told(told) -> None:
    """k_def of MDF: 2.25 in a dry room, 3.0 in damp air."""
    panel = told().panels[0]
    assert panel.bulge_in_time_m == pytest.approx(3.25 * panel.held_m)
    assert panel.bulge_in_damp_m == pytest.approx(4.0 * panel.held_m)


def test_rubber_grows_by_the_bulge_under_the_rubber_alone(told) -> None:
    box = told("", "300 mm, 300 mm, 400 mm", "concrete-fine")
    bulge = max(panel.held_m for panel in box.panels)
    # a platinum silicone of 1150 kg/m3 against fresh concrete of 2300
    assert box.rubber_with_bulge_m == pytest.approx(0.020 + bulge * 1150 / 2300, rel=1e-6)
    assert "common practice" in box.wall_text


def test_concrete_presses_with_its_full_head(told) -> None:
    box = told("", "300 mm, 300 mm, 400 mm", "concrete-fine")
    assert box.panels[0].pressure_at_foot_Pa == pytest.approx(2300 * G * 0.41905, rel=1e-6)
    # ACI 347: 30 kPa at least, so the full head governs down to 30,000 / (2300 g) = 1.33 m
    assert "1330 mm" in box.head


def test_the_densest_liquid_of_all_variants_decides(told, tmp_path) -> None:
    alone = told("", SMALL)
    both = told(VARIANTS, SMALL)
    assert alone.panels[0].pressure_at_foot_Pa < both.panels[0].pressure_at_foot_Pa
    assert both.panels[0].pressure_at_foot_Pa == pytest.approx(2300 * G * 0.13905, rel=1e-6)
    assert "all variants" in both.panels[0].liquid


def test_a_variant_of_another_shape_has_a_box_of_its_own(told) -> None:
    other = VARIANTS + 'shape.box = ["100 mm", "100 mm", "50 mm"]\n'
    pressed = told(other, SMALL).panels[0].pressure_at_foot_Pa
    assert pressed == pytest.approx(told("", SMALL).panels[0].pressure_at_foot_Pa)


@pytest.mark.parametrize(
    ("mold", "words"),
    [
        ('board_sheet = ["300 mm", "150 mm"]', "larger than any sheet"),
        ('board_sheet = ["0 mm", "1 m"]', "board_sheet"),
        ('board_sheet = ["1 m"]', "list of 2"),
        ('joint = "dovetail"', "joint"),
        ('bulge_limit = "0 mm"', "bulge_limit"),
    ],
)
def test_what_cannot_be_is_one_line_with_its_place(told, mold, words) -> None:
    with pytest.raises(UserError, match=words) as refused:
        told(mold)
    assert "job.toml:9" in str(refused.value)


def test_a_piece_larger_than_any_sheet_is_refused(told) -> None:
    with pytest.raises(UserError, match="larger than any sheet of MDF"):
        told("", "2 m, 1300 mm, 300 mm")


def test_inches(told) -> None:
    box = told("", WIDE, more='units = "us"\n')
    text = lines(box, "us")
    assert " mm" not in text
    assert "no. 8" in text
    # 23 kg are 51 lb
    assert "51 lb" in box.lifting


def test_who_lifts_it(told) -> None:
    """Revised NIOSH lifting equation, load constant 23 kg [waters-1994]."""
    heavy, light = told("", WIDE), told("", "60 mm, 60 mm, 60 mm")
    assert heavy.lifting_limit_kg == 23.0
    assert heavy.filled_kg > 46
    assert "hoist" in heavy.lifting
    assert any("hoist" in text for text in heavy.cautions)
    assert light.people == 1
    assert light.cautions == []


def test_boxes_opened_often_want_clamps(told) -> None:
    assert 'joint = "flange"' in told().often
    assert told("casts = 3").often == ""
    assert told('joint = "flange"').often == ""


def test_a_skin_has_no_box_and_says_what_carries_it(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    size = SMALL.replace(", ", '", "')
    path.write_text(
        JOB.format(size=size, material="epoxy-slow-deep", mold='way = "skin"\nskin = "9 mm"'), "utf8"
    )
    job = load_job(path)
    look = look_at_mold(job, read_piece(job))
    assert box_look(look, SILENT) is None
    # usual skins are 8 to 12 mm
    assert rubber_look(look, SILENT).skin_wall.startswith("9.0 mm (common practice, 8.0 mm to 12 mm)")


def test_gypsum_is_not_told_as_concrete(told) -> None:
    assert "placing" not in told("", SMALL, "gypsum-casting").head
    assert "placing" in told("", SMALL, "concrete-fine").head
