"""The first job file."""

import pytest

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem
from pourwright.jobs import Answers, JobError, read_job, write_new_job

STOOL = {"title": 'The "low" stool', "material": "epoxy-slow-deep", "shop_temperature": "21 degC"}


def test_a_mesh_with_two_bands():
    answers = Answers(
        **STOOL,
        shape_file="stool.stl",
        unit="mm",
        glass=(("coarse", "green"), ("medium", "clear")),
        height=0.44,
    )
    job = read_job(write_new_job(answers))
    assert job.title == 'The "low" stool'
    assert [band.to and band.to.si for band in job.band] == [0.22, None]
    assert [(band.grade, band.colour) for band in job.band] == [("coarse", "green"), ("medium", "clear")]
    assert job.shop.temperature.si == 294.15
    assert 0.010 <= job.mold.wall.si <= 0.025
    assert 0.0127 <= job.mold.base.si <= 0.0254
    assert job.mold.safety_factor >= 1


def test_a_box_in_us_shop_units():
    answers = Answers(**STOOL, box=("10 in", "10 in", "1 1/2 in"), units=UnitSystem.US)
    job = read_job(write_new_job(answers))
    assert job.units == "us"
    assert job.paper_size == "letter"
    assert job.shape.box[2].si == 0.0381
    assert job.band == []
    assert job.mold.wall.text == "3/4 in"


@pytest.mark.parametrize("units", list(UnitSystem))
def test_every_choice_stands_with_a_reason(units):
    answers = Answers(
        **STOOL, shape_file="a.3mf", glass=(("coarse", "a"), ("fine", "b")), height=0.4, units=units
    )
    for row in write_new_job(answers).splitlines():
        if " = " in row and not row.startswith(("#", "format", "title")):
            assert "  # " in row


@pytest.mark.parametrize("units", list(UnitSystem))
def test_what_is_commented_out_may_be_switched_on(units):
    text = write_new_job(Answers(**STOOL, shape_file="a.3mf", glass=(("coarse", "a"),), units=units))
    switched = text.replace("# bucket_test", "bucket_test").replace("# neat_cover", "neat_cover")
    job = read_job(switched)
    assert job.fill.neat_cover.si == pytest.approx(0.006, abs=5e-4)
    test = job.band[0].bucket_test
    # the example lies within poured glass of 2500 kg/m3, 0.42 to 0.50 voids
    assert 0.50 * 2500 <= test.mass.si / test.volume.si <= 0.58 * 2500


def test_bands_without_a_height_are_not_guessed():
    with pytest.raises(UserError, match="height of the piece"):
        write_new_job(Answers(**STOOL, shape_file="a.glb", glass=(("coarse", "a"), ("fine", "b"))))


def test_answers_that_cannot_be_used_are_refused():
    with pytest.raises(JobError, match="does not say its unit"):
        write_new_job(Answers(**STOOL, shape_file="a.stl"))
    with pytest.raises(JobError, match="is no temperature"):
        write_new_job(Answers(**{**STOOL, "shop_temperature": "warm"}, box=("1 in", "1 in", "1 in")))
