"""Plans read back, their schema, and fingerprints of what they were made from."""

import copy
import hashlib
import json

import jsonschema
import pytest

from pourwright.foundation.errors import UserError
from pourwright.jobs import input_hashes, job_hash, load_job, load_plan, plan_schema, read_job, read_plan
from tests.sheets.sample_plan import sample_plan


@pytest.fixture(scope="module")
def document():
    return json.loads(sample_plan().model_dump_json(by_alias=True))


def test_a_plan_fits_its_schema(document):
    jsonschema.validate(document, plan_schema())
    spoilt = copy.deepcopy(document)
    spoilt["pours"][0]["peak_temperature_degC"] = {"p10": 1}
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(spoilt, plan_schema())


def test_a_plan_is_read_back_as_it_was(tmp_path, document):
    path = tmp_path / "plan.json"
    path.write_text(json.dumps(document))
    assert load_plan(path) == sample_plan()


def test_a_newer_minor_version_is_read_without_what_it_adds(document):
    newer = copy.deepcopy(document)
    newer["schema"] = "pourwright-plan/1.8"
    newer["weather"] = {"rain": True}
    newer["pours"][1]["colour_of_the_moon"] = "pale"
    newer["mold"]["rubber"]["smell"] = 3
    assert read_plan(newer) == sample_plan()


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"schema": "pourwright-plan/2.0"}, "newer than this program; allowed: pourwright-plan/1.x"),
        ({"schema": "other/1.0"}, "is no plan"),
        ({"schema": None}, "is no plan"),
        ({"piece": 3}, "p.json: piece"),
    ],
)
def test_what_is_no_plan_is_refused(document, change, words):
    with pytest.raises(UserError) as refused:
        read_plan(document | change, "p.json")
    assert words in str(refused.value)


def test_a_file_that_is_no_json_is_refused(tmp_path):
    (tmp_path / "plan.json").write_text("{")
    for name in ("plan.json", "none.json"):
        with pytest.raises(UserError, match="cannot be read as a plan"):
            load_plan(tmp_path / name)


def test_fingerprints(tmp_path, text):
    (tmp_path / "job.toml").write_text(text)
    (tmp_path / "stool.stl").write_bytes(b"solid")
    job = load_job(tmp_path)
    assert input_hashes(job) == {
        "job.toml": hashlib.sha256(text.encode()).hexdigest(),
        "stool.stl": hashlib.sha256(b"solid").hexdigest(),
    }
    # it is told what was read, whatever the file says by now
    (tmp_path / "job.toml").write_text("format = 2")
    assert input_hashes(job)["job.toml"] == hashlib.sha256(text.encode()).hexdigest()
    assert job_hash(job) == job_hash(read_job("# a comment\n" + text.replace("\n\n", "\n\n\n")))
    assert job_hash(job) != job_hash(read_job(text.replace("20 degC", "21 degC")))
