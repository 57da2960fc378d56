"""One file, several plans."""

import pytest

from pourwright.jobs import JobError, read_job
from pourwright.jobs.variants import merged

VARIANTS = """
[[variant]]
name = "as written"

[[variant]]
name = "thin wall"
mold.wall = "12 mm"
mold.base = "1/2 in"

[[variant]]
name = "turned"
shape.profile = [["80 mm", "0 mm"], ["60 mm", "200 mm"]]
shop.day_temperature = "22 degC"
shop.night_temperature = "17 degC"
[[variant.band]]
to = "top"
neat = true
"""


def test_a_job_without_variants_is_its_own(text):
    job = read_job(text)
    assert job.variants() == [job]
    assert job.variant_name == "main"


def test_each_variant_differs_in_its_lines_only(text):
    written, thin, turned = read_job(text + VARIANTS).variants()
    assert (written.variant_name, thin.variant_name, turned.variant_name) == (
        "as written",
        "thin wall",
        "turned",
    )
    assert (written.mold.wall.text, thin.mold.wall.text, turned.mold.wall.text) == (
        "3/4 in",
        "12 mm",
        "3/4 in",
    )
    assert thin.band == written.band
    assert thin.shape == written.shape
    assert len(turned.band) == 1
    assert turned.shape.file is None
    assert turned.shop.temperature is None
    assert turned.shop.night_temperature.si == 290.15


def test_lines_of_a_variant_are_its_own(text):
    written, thin, turned = read_job(text + VARIANTS, "job.toml").variants()
    base = text.count("\n")
    assert written.line("mold.wall") == 22
    assert thin.line("mold.wall") == base + 7
    assert thin.line("mold.base") == base + 8
    assert thin.line("band[2].to") == 17
    assert turned.line("band[1].to") == base + 16
    assert turned.line("mold") == 21
    # a table that a variant adds to stays where it was begun; bands that were replaced leave no line behind
    assert thin.line("mold") == 21
    assert turned.line("band[1].grade") == base + 15
    assert turned.line("band[2].to") == base + 15


@pytest.mark.parametrize(
    ("lines", "begins"),
    [
        ('name = "a"\nmold.wall = 12', "job.toml:29 mold.wall: 12 has no unit"),
        ('name = "a"\nmold.wal = "12 mm"', "job.toml:29 mold.wal: unknown key"),
        ('name = "a"\nmoold = 1', "job.toml:29 moold: unknown key"),
        ('name = "../a"', "job.toml:28 variant[1].name: a variant cannot be called"),
        ('mold.wall = "12 mm"', "job.toml:27 variant[1].name: the key 'name' is missing"),
        ('name = "a"\n[[variant]]\nname = "A"', "job.toml:30 variant[2].name: a second variant called 'A'"),
    ],
)
def test_errors_point_into_the_variant(text, lines, begins):
    with pytest.raises(JobError) as caught:
        read_job(f"{text}\n[[variant]]\n{lines}\n", "job.toml")
    assert str(caught.value).startswith(begins)


def test_merging_leaves_its_arguments_alone():
    base = {"a": {"b": 1, "c": [1, 2]}, "d": 1}
    lines = {"a": {"c": [3]}, "e": {"f": 2}}
    assert merged(base, lines) == {"a": {"b": 1, "c": [3]}, "d": 1, "e": {"f": 2}}
    assert base == {"a": {"b": 1, "c": [1, 2]}, "d": 1}
    assert lines == {"a": {"c": [3]}, "e": {"f": 2}}
