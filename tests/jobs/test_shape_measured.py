"""Readings of a tape and amounts of water in the job file, and what is refused with its line."""

from itertools import pairwise

import pytest

from pourwright.foundation.notation import UnitSystem
from pourwright.jobs import Answers, JobError, read_job, write_new_job

HEAD = """format = 1
[casting]
material = "epoxy-slow-deep"
[shop]
temperature = "20 degC"
"""
STONE = 'size = ["240 mm", "180 mm", "130 mm"]\nform = "rounded"\n'


def measured(*rows, more=""):
    lines = "\n".join(f"  {{ {row} }}," for row in rows)
    return read_job(f"{HEAD}[shape.measured]\nat = [\n{lines}\n]\n{more}\n")


def displaced(*lines):
    return read_job(HEAD + "[shape.displaced]\n" + STONE + "\n".join(lines) + "\n")


def refused(make, *args, **more):
    with pytest.raises(JobError) as error:
        make(*args, **more)
    return str(error.value)


def test_every_kind_of_reading():
    job = measured(
        'height = "0 mm", closes = "point"',
        'height = "50 mm", girth = "20 in"',
        'height = "100 mm", girth = "640 mm", width = "220 mm"',
        'height = "150 mm", diameter = "9 1/2 in"',
        'height = "200 mm", width = "220 mm", depth = "180 mm"',
        'height = "250 mm", width = "220 mm", depth = "180 mm", corner = "0 mm"',
        more='reading = "1/16 in"',
    )
    assert job.shape.given == "measured"
    assert [row.girth and row.girth.text for row in job.shape.measured.at][1:3] == ["20 in", "640 mm"]


@pytest.mark.parametrize(
    ("rows", "what"),
    [
        (('height = "0 mm", girth = "400 mm"',), "a list of 1"),
        (('height = "0 mm"', 'height = "9 mm", girth = "400 mm"'), "the reading at 0 mm has nothing"),
        (
            ('height = "0 mm", girth = "400 mm", diameter = "90 mm"', 'height = "9 mm", girth = "400 mm"'),
            "has girth, diameter; allowed: girth; diameter;",
        ),
        (
            ('height = "90 mm", girth = "400 mm"', 'height = "80 mm", girth = "400 mm"'),
            "reading 2 at 80 mm does not lie above the one before it, at 90 mm",
        ),
        (
            ('height = "0 mm", girth = "400 mm", width = "210 mm"', 'height = "80 mm", girth = "400 mm"'),
            "no oval 210 mm wide has a girth of 400 mm",
        ),
        (
            (
                'height = "0 mm", width = "90 mm", depth = "80 mm", corner = "45 mm"',
                'height = "9 mm", girth = "1 m"',
            ),
            "a corner of 45 mm does not fit a side of 80 mm",
        ),
        (
            (
                'height = "0 mm", girth = "400 mm"',
                'height = "8 mm", closes = "dome"',
                'height = "9 mm", girth = "400 mm"',
            ),
            "reading 2 closes the body; allowed: the first or the last",
        ),
        (('height = "0 mm", girth = "400"', 'height = "9 mm", girth = "1 m"'), "400"),
        (('height = "-9 mm", girth = "400 mm"', 'height = "9 mm", girth = "1 m"'), "a height of -9 mm"),
        (('height = "0 mm", girth = "0 mm"', 'height = "9 mm", girth = "1 m"'), "a girth of 0 mm"),
        (('height = "0 mm", girth = "640 m"', 'height = "9 mm", girth = "1 m"'), "a girth of 640 m"),
        (('height = "0 mm", closes = "dome"', 'height = "9 mm", closes = "dome"'), "closes the body"),
    ],
)  # fmt: skip
def test_a_wrong_reading_is_refused_on_its_line(rows, what):
    text = refused(measured, *rows)
    assert what in text
    assert text.startswith(("job.toml:7", "job.toml:8", "job.toml:9"))


def test_how_well_it_was_read_has_bounds():
    rows = ('height = "0 mm", girth = "400 mm"', 'height = "90 mm", girth = "400 mm"')
    assert "readings good to 2 m; allowed: above 0, up to 50 mm" in refused(
        measured, *rows, more='reading = "2 m"'
    )


def test_water_beside_a_tape_needs_no_form_and_alone_it_does():
    rows = ('height = "0 mm", girth = "400 mm"', 'height = "90 mm", girth = "400 mm"')
    job = measured(*rows, more='[shape.displaced]\nwater = "1 kg"')
    assert job.shape.given == "measured"
    text = refused(measured, *rows, more='[shape.displaced]\nwater = "1 kg"\nform = "domed"')
    assert "form beside a tape, which gives the form; do: leave it out" in text
    with pytest.raises(
        JobError, match="water without size; allowed: width, depth and height outside; do: add size"
    ) as error:
        read_job(HEAD + '[shape.displaced]\nwater = "1 kg"\nform = "domed"\n')
    assert error.value.where.startswith("job.toml:6")


def test_water_by_mass_by_volume_and_by_the_rise_in_a_tub():
    assert displaced('water = "3.2 kg"', 'reading = "50 g"').shape.displaced.water.si == 3.2
    assert displaced('water = "3 quart"').shape.displaced.water.text == "3 quart"
    assert displaced('rise = "42 mm"', 'tub = ["480 mm", "320 mm"]').shape.displaced.rise.si == 0.042
    assert displaced('rise = "42 mm"', 'tub_diameter = "1 ft"', 'reading = "2 mm"').shape.given == "displaced"


@pytest.mark.parametrize(
    ("lines", "what"),
    [
        ((), "the water is told by nothing"),
        (('water = "3 kg"', 'rise = "4 cm"'), "the water is told by water and rise"),
        (('rise = "4 cm"',), "a rise needs the inside sizes of the tub"),
        (('rise = "4 cm"', 'tub_diameter = "1 ft"', 'tub = ["1 ft", "1 ft"]'), "inside sizes of the tub"),
        (('water = "3 kg"', 'tub_diameter = "1 ft"'), "tub_diameter belongs to a rise"),
        (('water = "0 kg"',), "0 kg of water; allowed: above 0"),
        (('water = "3"',), "'3'"),
        (('water = "3 kg"', 'reading = "2 mm"'), "good to 2 mm; allowed: a mass or volume"),
        (('rise = "4 cm"', 'tub_diameter = "1 ft"', 'reading = "50 g"'), "good to 50 g; allowed: a length"),
        (('water = "3 kg"', 'water_temperature = "-5 degC"'), "allowed: 0 to 100 degC"),
    ],
)
def test_wrong_water_is_refused(lines, what):
    text = refused(displaced, *lines)
    assert what in text
    assert text.startswith("job.toml:")


@pytest.mark.parametrize("units", list(UnitSystem))
@pytest.mark.parametrize("height", [0.02, 0.36, 1.2])
def test_a_new_job_leaves_its_readings_open(units, height):
    """Nothing is cast by a reading that nobody took: until it is filled in, its line is refused."""
    answers = Answers(
        title="vase", material="epoxy-slow-deep", shop_temperature="20 degC",
        measured=True, height=height, units=units,
    )  # fmt: skip
    text = write_new_job(answers)
    assert "no number at '?" in refused(read_job, text)
    rows = read_job(text.replace('"? ', '"12 ')).shape.measured.at
    assert [rows[0].closes, rows[1].closes, rows[-1].closes] == ["flat", None, "flat"]
    assert rows[-1].height.si == pytest.approx(height, abs=0.0008)
    assert all(low.height.si < high.height.si for low, high in pairwise(rows))
