"""Reading job files: quantities, lines of errors, checks across keys, variants."""

from datetime import datetime

import pytest

from pourwright.foundation.errors import UserError
from pourwright.jobs import JobError, load_job, read_job


def refusal(text, *changes):
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    with pytest.raises(JobError) as caught:
        read_job(text, "stool/job.toml")
    return caught.value


def test_quantities_are_exact_and_keep_the_makers_words(text):
    job = read_job(text)
    assert job.mold.wall.si == 0.01905
    assert job.mold.wall.text == "3/4 in"
    assert job.band[0].to.si == 0.12
    assert job.band[1].to is None
    assert job.shop.temperature.si == 293.15


def test_defaults_that_were_left_out(text):
    job = read_job(text)
    assert (job.units, job.paper_size, job.seed, job.start) == ("metric", "A4", 0, None)
    assert job.mold.method == "hung"
    assert job.mold.base is None
    assert job.shop.working_days == ["mon", "tue", "wed", "thu", "fri"]
    assert read_job(text.replace("[shape]", 'units = "us"\n[shape]', 1)).paper_size == "letter"


def test_hours_and_dates(text):
    extra = (
        'working_hours = "07:30-24:00"\ndays_off = ["2026-12-24", 2026-12-25]\ntime_zone = "Europe/Berlin"\n'
    )
    job = read_job(text.replace("[shape]", 'start = "2026-12-01 09:00"\n[shape]', 1) + extra)
    assert job.start == datetime(2026, 12, 1, 9)
    assert (job.shop.working_hours.start.hour, job.shop.working_hours.end.hour) == (7, 23)
    assert [day.day for day in job.shop.days_off] == [24, 25]


@pytest.mark.parametrize(
    ("old", "new", "begins", "names"),
    [
        ('to = "120 mm"', "to = 120", "stool/job.toml:12 band[1].to: 120 has no unit;", "19 mm"),
        ('wall = "3/4 in"', "wall = 20", "stool/job.toml:22 mold.wall: 20 has no unit;", "19 mm"),
        ('wall = "3/4 in"', 'wall = "20"', "stool/job.toml:22 mold.wall: '20' is no length", "mm, cm, m, in"),
        ('wall = "3/4 in"', 'wall = "20 kg"', "stool/job.toml:22 mold.wall: '20 kg' is no length", "mass"),
        ('wall = "3/4 in"', 'wall = "0 mm"', "stool/job.toml:22 mold.wall: '0 mm' is nothing", "to 150 mm"),
        ('wall = "3/4 in"', "wall = true", "stool/job.toml:22 mold.wall: true is not a quantity", "19 mm"),
        (
            'wall = "3/4 in"',
            'wal = "3/4 in"',
            "stool/job.toml:22 mold.wal: unknown key 'wal'",
            "do: write wall",
        ),
        ("[mold]", "[mould]", "stool/job.toml:21 mould: unknown key 'mould'", "do: write mold"),
        (
            "0.44",
            "0.3",
            "stool/job.toml:19 band[2].void_fraction: a void fraction of 0.3 without a",
            "0.40 to 0.70",
        ),
        ("0.44", "0.75", "stool/job.toml:19 band[2].void_fraction: a void fraction of 0.75", "0.40 to 0.70"),
        ("0.44", "44", "stool/job.toml:19 band[2].void_fraction: a share of 44", "0 to 1"),
        (
            'grade = "medium"',
            "neat = true",
            "stool/job.toml:16 band[2]: a neat band with glass keys",
            "to and neat",
        ),
        ('grade = "medium"', "", "stool/job.toml:16 band[2]: a band with neither a grade", "neat = true"),
        (
            'unit = "mm"',
            "",
            "stool/job.toml:5 shape.file: a .stl file does not say its unit",
            "mm, cm, m, in, ft",
        ),
        ('"mm"', '"furlong"', "stool/job.toml:6 shape.unit: 'furlong' is not known", "mm, cm, m, in, ft"),
        (
            'stool.stl"',
            'stool.doc"',
            "stool/job.toml:5 shape.file: file 'stool.doc'",
            ".stl, .obj, .ply, .3mf, .glb",
        ),
        (
            'stool.stl"',
            'stool.glb"',
            "stool/job.toml:6 shape.unit: a .glb file carries its own",
            "leave unit out",
        ),
        (
            'unit = "mm"',
            'unit = "mm"\nbox = ["1 in", "1 in", "1 in"]',
            "stool/job.toml:4 shape:",
            "exactly one",
        ),
        (
            '[shop]\ntemperature = "20 degC"\n',
            "[shop]\n",
            "stool/job.toml:24 shop: the shop's temp",
            "20 degC",
        ),
        (
            '[shop]\ntemperature = "20 degC"\n',
            "",
            "stool/job.toml:1 shop: the key 'shop' is missing",
            "add it",
        ),
        ('temperature = "20', 'day_temperature = "20', "stool/job.toml:24 shop: one half", "both"),
        ("format = 1", "format = 99", "stool/job.toml:1 format: format 99 is newer", "allowed: 1;"),
        ("format = 1", "", "stool/job.toml:1 format: the key 'format' is missing", "format = 1"),
        ("format = 1", "format = true", "stool/job.toml:1 format: format True", "allowed: 1;"),
        ('title = "Stool"', "title = Stool", "stool/job.toml:2: not TOML: invalid value", "quotes"),
        ('title = "Stool"', "seed = 1.5", "stool/job.toml:2 seed: 1.5 is not a whole number", "whole number"),
        ('title = "Stool"', "seed = -1", "stool/job.toml:2 seed:", "0 or more"),
        ('title = "Stool"', "band = 3", "stool/job.toml:11: not TOML: cannot", "mend"),
        ('title = "Stool"', "invented = 1", "stool/job.toml:2 invented: 1 is not true or false", "true"),
        (
            'title = "Stool"',
            'start = "tomorrow"',
            "stool/job.toml:2 start: 'tomorrow' is no date",
            "2026-12-01",
        ),
        (
            "[shop]",
            '[shop]\ntime_zone = "Mars/Base"',
            "stool/job.toml:25 shop.time_zone: no time zone",
            "Europe",
        ),
        (
            "[shop]",
            '[shop]\nworking_hours = "18:00-8"',
            "stool/job.toml:25 shop.working_hours",
            "08:00-18:00",
        ),
        ("[shop]", "[shop]\nworking_days = []", "stool/job.toml:24 shop: no working days", "mon"),
        (
            "[mold]",
            '[prices]\ncurrency = "EUR"\nresin = "20 USD/kg"\n[mold]',
            "stool/job.toml:23 prices.resin",
            "EUR",
        ),
    ],
)
def test_one_line_says_where_what_and_what_to_do(text, old, new, begins, names):
    line = str(refusal(text, (old, new)))
    assert line.startswith(begins)
    assert names in line
    assert "\n" not in line


def test_bands_must_rise(text):
    found = refusal(text, ('to = "top"', 'to = "4 in"'))
    assert str(found).startswith("stool/job.toml:17 band[2].to: '4 in' does not lie above the band below")
    found = refusal(text, ('to = "120 mm"', 'to = "top"'))
    assert str(found).startswith("stool/job.toml:12 band[1].to:")


def test_a_low_void_fraction_stands_with_a_bucket_test(text):
    test = 'void_fraction = 0.35\nbucket_test = { mass = "8.1 kg", volume = "5 l" }'
    job = read_job(text.replace("void_fraction = 0.44", test))
    assert job.band[1].void_fraction == 0.35
    assert job.band[1].bucket_test.volume.si == 0.005
    assert "0.20 to 0.70" in str(refusal(text, ("void_fraction = 0.44", test.replace("0.35", "0.15"))))


def test_every_error_is_reported_in_the_order_of_the_file(text):
    found = refusal(text, ('"20 degC"', "20"), ('to = "120 mm"', "to = 120"), ("wall", "wal"))
    assert [error.where for error in found.every] == [
        "stool/job.toml:12 band[1].to",
        "stool/job.toml:22 mold.wal",
        "stool/job.toml:25 shop.temperature",
    ]
    assert found.text.count("\n") == 2
    assert str(found) == found.text.splitlines()[0]
    assert isinstance(found, UserError)
    assert found.exit_status == 2


def test_an_unknown_table_takes_its_place_among_the_errors(text):
    found = refusal(text, ("[mold]", "[mould]"), ('"20 degC"', "20"))
    assert [error.where.split()[0] for error in found.every] == ["stool/job.toml:21", "stool/job.toml:25"]


def test_where_names_the_line_or_the_table_around_it(text):
    job = read_job(text, "stool/job.toml")
    assert job.where("band[2].to") == "stool/job.toml:17 band[2].to"
    assert job.where(("band", 1, "colour")) == "stool/job.toml:16 band[2].colour"
    assert job.line("shop.pail") == 24
    assert job.line("prices") is None


def test_shapes_written_in_the_file(text):
    shapes = {
        'box = ["10 in", "10 in", "1 1/2 in"]': lambda shape: shape.box[2].si == 0.0381,
        'cone = { bottom_diameter = "8 in", top_diameter = "0 in", height = "1 ft" }': lambda shape: (
            shape.cone.height.si == 0.3048
        ),
        'profile = [["4 in", "0 in"], ["3 in", "2 in"]]': lambda shape: shape.profile[1].end[0] == 0.0762,
    }
    for line, right in shapes.items():
        assert right(read_job(text.replace('file = "stool.stl"\nunit = "mm"', line)).shape)
    assert "band" not in str(refusal(text, ('file = "stool.stl"\nunit = "mm"', 'box = ["1 in", "1 in"]')))


def test_prices_by_mass_or_by_volume(text):
    job = read_job(text + '[prices]\ncurrency = "USD"\nresin = "95 USD/gallon"\nglass = "0.5 USD/lb"\n')
    assert job.prices.resin.dimension == "price per volume"
    assert job.prices.glass.dimension == "price per mass"


def test_yield_keeps_its_name_in_the_file(text):
    assert read_job(text + "[bottles]\nyield = { coarse = 0.4, medium = '25 %' }\n").bottles.crush_yield == {
        "coarse": 0.4,
        "medium": 0.25,
    }


def test_a_folder_or_a_missing_file(tmp_path, text):
    (tmp_path / "job.toml").write_text(text)
    job = load_job(tmp_path)
    assert job.path == tmp_path / "job.toml"
    assert job.shape_file == tmp_path / "stool.stl"
    with pytest.raises(JobError, match="no such job file"):
        load_job(tmp_path / "none.toml")
    (tmp_path / "bad.toml").write_bytes(b"\xff\xfe")
    with pytest.raises(JobError, match="UTF-8"):
        load_job(tmp_path / "bad.toml")
