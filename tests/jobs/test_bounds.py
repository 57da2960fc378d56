"""Careless values in a job file: each is refused with its place, what is allowed and what to do."""

import pytest

from pourwright.foundation.errors import UserError
from pourwright.jobs import load_job, read_job
from pourwright.jobs.bounds import BOUNDS


def refusal(text):
    with pytest.raises(UserError) as caught:
        read_job(text, "stool/job.toml")
    return str(caught.value)


def with_line(text, table, line):
    """Add a line to a table of the job, in the place of one that gives the same key."""
    key = line.partition(" =")[0]
    head, _, body = text.partition(f"[{table}]\n")
    if not body:
        return f"{text}\n[{table}]\n{line}\n"
    inside, bracket, rest = body.partition("[")
    kept = "".join(old for old in inside.splitlines(True) if not old.startswith(f"{key} ="))
    return f"{head}[{table}]\n{line}\n{kept}{bracket}{rest}"


@pytest.mark.parametrize(
    ("table", "line", "what", "allowed"),
    [
        ("shop", 'temperature = "500 degC"', "'500 degC' is too much", "-30 °C to 45 °C"),
        ("shop", 'temperature = "-40 degC"', "'-40 degC' is too little", "-30 °C to 45 °C"),
        ("shop", 'temperature = "20 K"', "'20 K' is too little", "-30 °C to 45 °C"),
        ("casting", 'start_temperature = "300 degF"', "'300 degF' is too much", "0 °C to 60 °C"),
        ("mold", 'wall = "5 m"', "'5 m' is too much", "150 mm"),
        ("mold", 'base = "-3 mm"', "'-3 mm' is nothing to work with", "150 mm"),
        ("mold", 'board_thickness = "2 m"', "'2 m' is too much", "100 mm"),
        ("mold", "safety_factor = 0", "0 is too little", "1 or more"),
        ("mold", "safety_factor = 11", "11 is too much", "up to 10"),
        ("fill", 'film = "50 mm"', "'50 mm' is too much", "0 mm to 2.0 mm"),
        ("fill", "bucket_loss = 1", "a share of 1 is too much", "0 to 0.5"),
        ("master", 'density = "50000 kg/m3"', "'50000 kg/m3' is too much", "9000 kg/m3"),
        ("shop", 'pail = "1 ml"', "'1 ml' is too little", "200.0 l"),
        ("shop", 'scale_step = "50 kg"', "'50 kg' is too much", "100 g"),
        ("shop", 'scale_capacity = "1 g"', "'1 g' is too little", "1000.00 kg"),
        ("shop", 'working_hours = "08:00-08:30"', "too short to pour in", "an hour or more"),
        ("limits", 'resin_peak = "10 degC"', "'10 degC' is too little", "250 °C"),
        ("mold", 'seam_gap = "1 cm"', "'1 cm' is too much", "0.01 mm to 5.00 mm"),
        ("mold", 'seam_gap = "0 mm"', "'0 mm' is nothing to work with", "0.01 mm to 5.00 mm"),
        ("limits", 'leak = "60 kg"', "'60 kg' is too much", "1.0 g to 50.00 kg"),
        ("limits", 'leak = "0.1 ml"', "'0.1 ml' is too little", "1 ml to 50.0 l"),
        ("bottles", "yield = { coarse = 0.0 }", "a yield of 0 gives no glass", "more than 0"),
        ("bottles", "yield = { coarse = 0.7, fine = 0.6 }", "add up to 1.3", "at most 1"),
        ("shape", 'box = ["100 mm", "80 mm"]', "a list of 2", "a list of 3"),
    ],
)
def test_a_value_no_workshop_has_is_refused(text, table, line, what, allowed):
    message = refusal(with_line(text, table, line))
    assert message.startswith("stool/job.toml:")
    assert f" {table}.{line.partition(' =')[0]}" in message
    assert what in message
    assert allowed in message.partition("allowed: ")[2]
    assert "; do: " in message


def test_bounds_are_told_in_the_makers_units(text):
    us = text.replace("[shape]", 'units = "us"\n[shape]', 1)
    assert "allowed: -22 °F to 113 °F" in refusal(with_line(us, "shop", 'temperature = "200 degF"'))


def test_a_leak_is_a_mass_or_a_volume_with_its_unit(text):
    for wrong in ('"2 mm"', "0.1", '"some"'):
        message = refusal(with_line(text, "limits", f"leak = {wrong}"))
        assert "limits.leak" in message
        assert message.startswith("stool/job.toml:")


@pytest.mark.parametrize("place", BOUNDS)
def test_every_bound_names_a_key_of_the_job(text, place):
    table, name = place.split(".")
    hollow = '\n[hollow]\nwall = "25 mm"\n'
    assert hasattr(getattr(read_job(text + hollow), table), name)


def test_scale_steps_and_capacity_belong_to_one_scale(text):
    two = with_line(with_line(text, "shop", 'scale_step = "100 g"'), "shop", 'scale_capacity = "1 kg"')
    assert "cannot show steps of 100 g" in refusal(two)


@pytest.mark.parametrize(
    ("lines", "what"),
    [
        ('currency = "euro"', "no currency 'euro' is known"),
        ('currency = "=1+1"', "no currency '=1+1' is known"),
        ('currency = "EUR"\nresin = "-3 EUR/kg"', "'-3 EUR/kg' is below zero"),
    ],
)
def test_prices_that_cannot_be(text, lines, what):
    assert what in refusal(f"{text}\n[prices]\n{lines}\n")


@pytest.mark.parametrize("year", ["0001", "1900", "9999"])
def test_a_start_far_off_is_a_slip(text, year):
    assert f"the year {int(year)}" in refusal(f'start = "{year}-01-01 09:00"\n{text}')


@pytest.mark.parametrize(
    ("title", "what"),
    [
        ('""', "an empty text"),
        ('"   "', "an empty text"),
        (f'"{"W" * 500}"', "a text of 500 letters"),
        (r'"two\nlines"', "cannot be printed"),
        (r'"bell \u0007"', "cannot be printed"),
        ("5", "is not a text in quotes"),
    ],
)
def test_titles_and_colours_fit_on_one_printed_line(text, title, what):
    assert what in refusal(text.replace('title = "Stool"', f"title = {title}"))
    assert what in refusal(text.replace('colour = "green"', f"colour = {title}"))


def test_letters_of_every_language_may_be_printed(text):
    title = "Höcker 漢字 é =SUM(A1) <b>#$_*@"
    assert read_job(text.replace('"Stool"', f'"{title}"')).title == title


def test_hours_may_be_written_without_a_leading_zero(text):
    hours = read_job(with_line(text, "shop", 'working_hours = "8:00-17:00"')).shop.working_hours
    assert (hours.start.hour, hours.end.hour) == (8, 17)


def test_variants_that_would_share_a_folder_are_refused(text):
    line = refusal(f'{text}\n[[variant]]\nname = "a b"\n[[variant]]\nname = "a-b"\n')
    assert "a second variant called 'a-b'" in line


def test_a_variant_inside_a_variant_is_refused(text):
    line = refusal(f'{text}\n[[variant]]\nname = "a"\n[[variant.variant]]\nname = "b"\n')
    assert "'variant' inside a variant" in line


def test_lists_nested_too_deep_are_refused(text):
    assert "nested too deep" in refusal(f"{text}\n[pin]\nx = {'[' * 5000}{']' * 5000}\n")


def test_a_file_far_too_large_is_not_read(tmp_path):
    huge = tmp_path / "job.toml"
    with huge.open("wb") as file:
        file.truncate(50_000_000)
    with pytest.raises(UserError, match="50 MB large, which is no job file"):
        load_job(huge)


@pytest.mark.parametrize("content", [bytes(range(256)), "format = 1".encode("utf-16")])
def test_a_file_that_is_no_text_is_refused_by_the_byte(tmp_path, content):
    binary = tmp_path / "job.toml"
    binary.write_bytes(content)
    with pytest.raises(UserError, match=r"job\.toml: is no UTF-8 text: byte \d+"):
        load_job(binary)
