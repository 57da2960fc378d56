"""What a maker meets with a faulty file: at shape, check and new."""

import json

import pytest

from pourwright.app import check_job, describe_shape, new_job
from pourwright.foundation.errors import UserError
from tests.geometry.faulty import CASES, write_case

ANSWERS = {"material": "epoxy-slow-deep", "glass": (), "shop_temperature": "20 degC"}


def job_with(folder, case, extra=""):
    mesh = write_case(case, folder)
    text = f"""format = 1
title = "odd"
[shape]
file = "{mesh.name}"
unit = "mm"
{extra}
[casting]
material = "epoxy-slow-deep"
[shop]
temperature = "20 degC"
time_zone = "UTC"
"""
    (folder / "job.toml").write_text(text)
    return folder / "job.toml"


def test_a_refused_shape_leaves_a_picture_and_nothing_else(tmp_path):
    path = write_case("large hole", tmp_path)
    with pytest.raises(UserError, match=r"282\.8 mm wide") as refused:
        describe_shape(path, "mm", out=tmp_path / "out")
    assert refused.value.exit_status == 2
    assert str(refused.value).endswith("fault.png")
    assert sorted(found.name for found in (tmp_path / "out").iterdir()) == [
        "fault.png",
        "fault.svg",
        "shape.json",
    ]
    assert (tmp_path / "out" / "fault.png").read_bytes().startswith(b"\x89PNG")
    assert "a hole 282.8 mm wide" in (tmp_path / "out" / "fault.svg").read_text("utf8")


def test_without_a_folder_the_way_to_the_picture_is_told(tmp_path):
    with pytest.raises(UserError, match="--out FOLDER draws where"):
        describe_shape(write_case("self-intersecting body", tmp_path), "mm")


def test_mended_places_are_told_and_drawn(tmp_path):
    report = describe_shape(write_case("flipped faces", tmp_path), "mm", out=tmp_path / "out")
    assert report.told[0].startswith("3 triangles faced the wrong way and were turned, first near x =")
    names = {path.name for path in report.files}
    assert {"mended.svg", "mended.png"} <= names
    assert "fault.svg" not in names


def test_a_body_is_chosen_by_its_number(tmp_path):
    path = write_case("several bodies", tmp_path)
    with pytest.raises(UserError, match="choose one with body = 1"):
        describe_shape(path, "mm")
    assert describe_shape(path, "mm", body=3).piece.volume_m3 == pytest.approx(8e-6, rel=1e-6)


def test_a_remesh_that_is_no_length_is_refused(tmp_path):
    path = write_case("cavity", tmp_path)
    for given in ("0 mm", "fine"):
        with pytest.raises(UserError, match="--remesh"):
            describe_shape(path, "mm", remesh=given)


def test_options_of_a_file_do_not_belong_to_a_job(tmp_path):
    with pytest.raises(UserError, match="belongs to a mesh file"):
        describe_shape(job_with(tmp_path, "cavity"), body=1)


def test_check_says_what_was_mended(tmp_path):
    report = check_job(job_with(tmp_path, "flipped faces")).to_json()
    mind = [finding["text"] for finding in report["findings"] if finding["level"] == "mind"]
    assert any("3 triangles faced the wrong way and were turned" in message for message in mind)


def test_repair_can_be_forbidden(tmp_path):
    job = job_with(tmp_path, "flipped faces", "repair = false")
    with pytest.raises(UserError, match=r"job\.toml:4 .*would have to be mended: 3 triangles faced"):
        check_job(job)


def test_a_job_chooses_a_body_and_makes_a_surface_anew(tmp_path):
    job = job_with(tmp_path, "several bodies", 'body = 1\nremesh = "5 mm"')
    told = describe_shape(job).told
    assert any("body 1 of 3 was taken" in words for words in told)
    assert any("made anew within 5 mm" in words for words in told)


@pytest.mark.parametrize("extra", ["body = 0", 'remesh = "0 mm"', 'repair = "no"'])
def test_keys_that_make_no_sense_are_refused_with_their_line(tmp_path, extra):
    with pytest.raises(UserError, match=r"job\.toml:6"):
        check_job(job_with(tmp_path, "cavity", extra))


def test_new_refuses_with_the_way_to_the_picture(tmp_path):
    path = write_case("large hole", tmp_path)
    with pytest.raises(UserError, match=f"pourwright shape {path} --unit mm --out FOLDER draws where"):
        new_job(str(path), "mm", ANSWERS, tmp_path / "made")
    assert not (tmp_path / "made").exists()


def test_new_keeps_the_chosen_body(tmp_path):
    path = write_case("several bodies", tmp_path)
    made = new_job(str(path), "mm", {**ANSWERS, "body": 1, "remesh": "4 mm"}, tmp_path / "made")
    assert "body = 1" in made.read_text("utf8")
    assert 'remesh = "4 mm"' in made.read_text("utf8")


def test_a_folder_with_other_things_is_left_alone(tmp_path):
    """Before anything is read, also where the only other thing bears the name of one of ours."""
    path = write_case("flipped faces", tmp_path)
    folder = tmp_path / "parts"
    folder.mkdir()
    (folder / "shape.stl").write_bytes(b"mine")
    with pytest.raises(UserError, match="the folder for a shape holds other things"):
        describe_shape(path, "mm", out=folder)
    with pytest.raises(UserError, match="the folder for a shape holds other things"):
        describe_shape(write_case("large hole", tmp_path), "mm", out=folder)
    assert [(found.name, found.read_bytes()) for found in folder.iterdir()] == [("shape.stl", b"mine")]


def test_what_lies_beside_is_kept_and_older_pictures_go(tmp_path):
    folder = tmp_path / "out"
    with pytest.raises(UserError, match=r"see .*fault\.png"):
        describe_shape(write_case("large hole", tmp_path), "mm", out=folder)
    (folder / "notes.txt").write_text("mine", "utf8")
    describe_shape(write_case("flipped faces", tmp_path), "mm", out=folder)
    names = {found.name for found in folder.iterdir()}
    assert {"notes.txt", "shape.json", "ways.png", "mended.png"} <= names
    assert not names & {"fault.png", "fault.svg"}
    told = json.loads((folder / "shape.json").read_text("utf8"))
    assert told["piece"]["volume_m3"] == pytest.approx(CASES["flipped faces"].volume, rel=1e-6)
