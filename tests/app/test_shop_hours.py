"""The plan tells when somebody is in the shop, so that its calendar can be shaded."""

from pourwright.app.document import job_info
from pourwright.jobs import load_job
from tests.app.conftest import EXAMPLES, SMALL


def test_the_hours_of_the_job_are_in_the_plan(tmp_path):
    path = tmp_path / "job.toml"
    hours = 'working_hours = "07:30-16:00"\nworking_days = ["sat", "mon"]\n'
    hours += 'days_off = ["2027-01-18", "2027-01-11"]\n'
    path.write_text(SMALL.replace("[shop]\n", f"[shop]\n{hours}"), "utf8")
    told = job_info(load_job(path))
    assert (told.opens, told.closes) == ("07:30", "16:00")
    assert told.working_days == ["mon", "sat"]
    assert told.days_off == ["2027-01-11", "2027-01-18"]


def test_a_job_without_hours_is_told_with_the_usual_ones(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(SMALL, "utf8")
    told = job_info(load_job(path))
    assert (told.opens, told.closes) == ("08:00", "18:00")
    assert told.working_days == ["mon", "tue", "wed", "thu", "fri"]
    assert told.days_off == []


def test_the_example_works_on_saturdays():
    assert job_info(load_job(EXAMPLES / "hourglass-stool")).working_days[-1] == "sat"
