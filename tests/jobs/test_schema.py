"""JSON Schemas, the manual page, and what a start may cost."""

import subprocess
import sys
import tomllib
from pathlib import Path

import jsonschema
import pytest

from pourwright.jobs import heat_schema, job_schema, plan_schema
from pourwright.jobs.plan import PlanDocument
from pourwright.jobs.reference import render_reference, tables

ROOT = Path(__file__).parents[2]


def test_schemas_are_schemas():
    for schema in (job_schema(), plan_schema(), heat_schema()):
        jsonschema.Draft202012Validator.check_schema(schema)


def test_a_job_fits_its_schema_and_a_bad_one_does_not(text):
    raw = tomllib.loads(text)
    jsonschema.validate(raw, job_schema())
    for spoilt in ({**raw, "colour": 1}, {**raw, "units": "cubits"}, {**raw, "mold": {"wall": 20}}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(spoilt, job_schema())


def test_the_plan_schema_asks_for_what_a_plan_holds():
    schema = plan_schema()
    assert {"schema", "piece", "mold", "fill", "pours", "demold"} <= set(schema["required"] + ["schema"])
    assert set(schema["properties"]) == {f.alias or name for name, f in PlanDocument.model_fields.items()}
    with pytest.raises(jsonschema.ValidationError, match="required"):
        jsonschema.validate({"schema": "pourwright-plan/1.0"}, schema)


def test_every_key_says_what_it_means():
    silent = [
        f"{head}.{name}"
        for head, model in tables()
        for name, f in model.model_fields.items()
        if not f.description
    ]
    assert silent == []


def test_the_manual_page_lists_every_key_as_it_is():
    page = (ROOT / "docs" / "job-file.md").read_text("utf8")
    assert page == render_reference(), (
        "write it again: python -m pourwright.jobs.reference > docs/job-file.md"
    )
    for heading, model in tables():
        section = page.split(f"\n## {f'`{heading}`' if heading else 'Top of the file'}\n")[1].split("\n## ")[
            0
        ]
        for name, field in model.model_fields.items():
            prefix = f"{heading.strip('[]')}." if heading else ""
            assert f"| `{prefix}{field.alias or name}` |" in section


def test_reading_a_job_needs_no_heavy_library():
    program = (
        "import sys; from pourwright.jobs import load_job, write_new_job, PlanDocument; "
        "print(*({'numpy', 'scipy', 'numba', 'trimesh'} & set(sys.modules)))"
    )
    run = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == ""
