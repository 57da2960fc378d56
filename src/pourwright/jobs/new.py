"""A first job file from five answers, every choice with its reason beside it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

import tomlkit

from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length
from pourwright.jobs.loading import read_job
from pourwright.jobs.new_forms import NEW_FORMS
from pourwright.jobs.new_measured import filled_in, readings_given, readings_to_fill

GlassAnswer = tuple[str, str]
_SIZES = {
    UnitSystem.METRIC: {
        "wall": "20 mm", "walls": "15 to 20 mm", "base": "19 mm", "bases": "13 to 25 mm", "cover": "6 mm",
        "test": 'mass = "6.9 kg", volume = "5 l"', "pail": "10 l", "capacity": "15 kg", "step": "1 g",
    },
    UnitSystem.US: {
        "wall": "3/4 in", "walls": "5/8 to 3/4 in", "base": "3/4 in", "bases": "1/2 to 1 in",
        "cover": "1/4 in", "test": 'mass = "14 lb 6 oz", volume = "5 quart"', "pail": "2 1/2 gallon",
        "capacity": "33 lb", "step": "0.05 oz",
    },
}  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Answers:
    """The five answers, as the maker gave them.

    Parameters
    ----------
    title : str
        What the piece is called.
    shape_file, unit : str, optional
        1 and 2: mesh file beside the job file, and the unit of its numbers.
    body, remesh : int and str, optional
        Which body of the file is meant, and within which length its surface is made anew.
    box : tuple of str, optional
        1 and 2: or the sizes of a box.
    form, sizes : str and tuple of str, optional
        1 and 2: or a shape of `new_forms`, and its sizes.
    measured : bool
        1: or readings of a tape, which are left open
    readings : tuple of mapping
        or given, from the table up: lengths by name as in ``[shape.measured]``.
    material : str
        3: id of the casting material.
    glass : tuple of (grade, colour)
        4: from the mold's floor up; empty for neat resin or a material mixed with water.
    height : float, optional
        Height of the piece [m], so that several bands share it; needed for two or more.
    shop_temperature : str
        5: as a thermometer in the shop says.
    units : UnitSystem
        Of what is printed.
    time_zone : str, optional
        IANA name; None where the computer's own could not be read.
    """

    title: str
    material: str
    shop_temperature: str
    shape_file: str | None = None
    unit: str | None = None
    body: int | None = None
    remesh: str | None = None
    box: tuple[str, str, str] | None = None
    form: str | None = None
    sizes: tuple[str, ...] = ()
    measured: bool = False
    readings: tuple[Mapping[str, str], ...] = ()
    glass: tuple[GlassAnswer, ...] = ()
    height: float | None = None
    up: Literal["+x", "-x", "+y", "-y", "+z", "-z"] = "+z"
    units: UnitSystem = UnitSystem.METRIC
    time_zone: str | None = "UTC"


def write_new_job(answers: Answers) -> str:
    """Write a commented job file.

    Parameters
    ----------
    answers : Answers
        The five answers.

    Returns
    -------
    str
        TOML that loads without error, once what was left open is filled in.

    Raises
    ------
    UserError
        Where an answer cannot be used.
    """
    text = "\n".join((*_head(answers), *_shape(answers), *_casting(answers), *_rest(answers))) + "\n"
    read_job(filled_in(text, answers.units), "the new job")
    return text


def _text(value: str) -> str:
    return tomlkit.string(value).as_string()


def _head(answers: Answers) -> Iterator[str]:
    yield "# What to cast and how. Sizes, masses and temperatures stand in quotes with their unit."
    yield "# docs/job-file.md explains every key; a line may be left out where it says a default."
    yield "format = 1"
    yield f"title = {_text(answers.title)}"
    yield f'units = "{answers.units}"  # of everything printed; this file may use any unit'
    yield ""


def _shape(answers: Answers) -> Iterator[str]:
    yield "[shape]"
    if answers.box is not None:
        yield f"box = [{', '.join(map(_text, answers.box))}]  # x, y, z"
    if answers.form is not None:
        yield from NEW_FORMS[answers.form].lines(answers.sizes, answers.units)
    if answers.readings:
        yield from readings_given(answers.readings)
    elif answers.measured and answers.height is not None:
        yield from readings_to_fill(answers.height, answers.units)
    if answers.shape_file is not None:
        yield f"file = {_text(answers.shape_file)}  # lies beside this file"
    if answers.unit is not None:
        yield f"unit = {_text(answers.unit)}  # the file does not say it, so it is said here"
    if answers.body is not None:
        yield f"body = {answers.body}  # of several bodies in the file, 1 is the largest"
    if answers.remesh is not None:
        yield f"remesh = {_text(answers.remesh)}  # the surface is made anew, so near to the old one"
    yield f'up = "{answers.up}"  # direction of the shape that points up while it is poured'
    yield 'open = "top"  # the mold is open where the resin finds its own level'
    yield ""


def _casting(answers: Answers) -> Iterator[str]:
    yield "[casting]"
    yield f"material = {_text(answers.material)}  # its record says what is known of its cure"
    yield ""
    if not answers.glass:
        yield "# No [[band]]: the whole piece is poured neat."
        yield ""
    for number, (grade, colour) in enumerate(answers.glass, 1):
        yield "[[band]]  # from the mold's floor up, as poured"
        yield f"to = {_text(_band_end(answers, number))}  # {_why_there(answers, number)}"
        yield f"grade = {_text(grade)}  # what stays between two sieves"
        yield f"colour = {_text(colour)}  # bottles are counted by colour"
        yield f"# bucket_test = {{ {_SIZES[answers.units]['test']} }}  # better than any table: weigh yours"
        yield ""


def _why_there(answers: Answers, number: int) -> str:
    if number == len(answers.glass):
        return "the open face"
    return "the bands share the height evenly until you say otherwise"


def _band_end(answers: Answers, number: int) -> str:
    if number == len(answers.glass):
        return "top"
    if answers.height is None:
        raise UserError(
            f"{len(answers.glass)} bands need the height of the piece",
            allowed="one band while the height is not known",
            todo="give one grade and colour, and divide the bands in the job file",
        )
    return format_length(answers.height * number / len(answers.glass), answers.units)


def _rest(answers: Answers) -> Iterator[str]:
    sizes = _SIZES[answers.units]
    yield "[fill]"
    yield "bucket_loss = 0.02  # stays in the pail (common practice)"
    yield "allowance = 0.05  # a leak, a looser bed, the top planed off: running short is worse"
    yield f'# neat_cover = "{sizes["cover"]}"  # left out: one largest grain deep, or grains stand out'
    yield ""
    yield "[mold]"
    yield 'method = "hung"  # the master hangs in the rubber, open face up: nothing has to be turned over'
    yield 'rubber = "silicone-platinum-a25"  # stands the heat of resin and bends out of undercuts'
    yield f'wall = "{sizes["wall"]}"  # rubber stands on its own at {sizes["walls"]} (common practice)'
    yield f'base = "{sizes["base"]}"  # gap under the hanging master, {sizes["bases"]} (common practice)'
    yield 'board = "mdf"  # of the box: flat, cheap, easy to cut'
    yield "safety_factor = 1.5  # on the weight that holds the master down: densities are known to 5 to 10 %"
    yield ""
    yield "[master]"
    yield 'board = "mdf"  # what it is glued up from; it decides how hard it floats'
    yield ""
    yield "[shop]"
    yield f"temperature = {_text(answers.shop_temperature)}  # decides heat, cure and demold time"
    if answers.time_zone is None:
        yield 'time_zone = "UTC"  # this computer does not say its own; set yours, as Europe/Berlin'
    else:
        yield f"time_zone = {_text(answers.time_zone)}  # of this computer; the calendar's clock"
    yield 'working_hours = "08:00-18:00"  # nobody pours at night'
    yield 'working_days = ["mon", "tue", "wed", "thu", "fri"]  # days somebody is there'
    yield f'pail = "{sizes["pail"]}"  # brim volume; it is filled to three quarters'
    yield f'scale_capacity = "{sizes["capacity"]}"  # a batch and its pail must not weigh more'
    yield f'scale_step = "{sizes["step"]}"  # the parts are rounded to it, and the error is printed'
