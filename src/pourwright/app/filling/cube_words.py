"""What is said in words of a test cube: how it is poured, what is measured, where the numbers go."""

from __future__ import annotations

from collections.abc import Iterator

from pourwright.app.setup import Setup, tools
from pourwright.fill.cube import CUBE, Cube
from pourwright.fill.shrinking import FINISH
from pourwright.foundation.notation import (
    ZERO_CELSIUS,
    UnitSystem,
    format_bend,
    format_duration,
    format_length,
    format_mass,
    format_share,
    format_temperature,
)
from pourwright.jobs.fill_cube import CubeMix, Measure, TestCube

COOLER = (
    "A cube runs cooler than the piece: what it makes of heat grows with its volume, what it loses with its "
    "surface. A cube that stays cool says nothing of how hot the piece gets; the plan says that."
)
CUP = (
    "Pour a cup of the same mix beside it and log that too: pourwright fit takes cups of neat resin, not "
    "cubes with glass in them."
)
COLOUR = "by daylight and by lamp, a side sanded fine and wetted: thickness decides how deep a colour looks"
BLANK = "____"
UNITS = {UnitSystem.METRIC: ("g", "mm"), UnitSystem.US: ("oz", "in")}


def cube_steps(setup: Setup, told: TestCube) -> Iterator[str]:
    """Say how the cube is poured, in order.

    Parameters
    ----------
    setup : Setup
        For the words.
    told : TestCube
        The numbers.

    Yields
    ------
    str
        To be ticked off.
    """
    edge = format_length(told.edge_m, setup.system)
    marks = ", ".join(format_length(layer.to_m, setup.system) for layer in told.layers)
    yield (
        f"A mold {edge} wide, deep and high inside: rubber, or a waxed box, with a rim left over it. Try it "
        f"with water, dry it. Mark inside, up from its floor: {marks}."
    )
    yield "Measure its width inside with a caliper, at three heights; write it down."
    for number, mix in enumerate(told.mixes):
        yield from _mix_steps(setup, told, mix, number)
    yield "Stop at the uppermost mark and do not top it up: how far it sinks is to be seen."
    yield CUP
    yield "Leave it as long as the piece, in the same place. After a week measure, sand one side, look."


def _mix_steps(setup: Setup, told: TestCube, mix: CubeMix, number: int) -> Iterator[str]:
    step = tools(setup.job).scale_step
    if number:
        yield "Wait until it has gelled and still sticks a little: glass sinks into liquid resin."
    for layer in told.layers:
        if layer.band in mix.layers and layer.grade:
            mass = format_mass(layer.glass_kg, setup.system, step=step)
            yield (
                f"{layer.band}: dry {_named(layer.colour, layer.grade)}, about {mass}, level with its mark. "
                "Weigh what really went in."
            )
    middle = 0.5 * told.edge_m
    if any(layer.band in mix.layers and layer.from_m <= middle < layer.to_m for layer in told.layers):
        yield "Hang the sensor in the very middle, in thin foil; the logger takes a reading a minute."
    a, b = (format_mass(part, setup.system, step=step) for part in (mix.part_a_kg, mix.part_b_kg))
    times = f", {mix.batches} times" if mix.batches > 1 else ""
    yield (
        f"Weigh {a} of A and {b} of B{times} into one pail, stir as always, pour slowly into one corner. "
        "Weigh the pail before and after."
    )


def _named(colour: str | None, grade: str | None) -> str:
    return " ".join(each for each in (colour, grade) if each)


def measures(setup: Setup, told: TestCube) -> Iterator[Measure]:
    """List what is measured on the cube.

    Parameters
    ----------
    setup : Setup
        For the words.
    told : TestCube
        The numbers.

    Yields
    ------
    Measure
    """
    mass, length = UNITS[setup.system]
    step = tools(setup.job).scale_step
    for layer in told.layers:
        if layer.grade:
            yield Measure(
                what=f"glass in {layer.band}",
                how=f"weighed in, level with its mark: {layer.volume_m3 * 1e6:.0f} ml of mold",
                expected=f"{format_mass(layer.glass_kg, setup.system, step=step)}, voids "
                f"{format_share(layer.void_fraction)}",
                goes_to=["band.bucket_test.mass", "band.bucket_test.volume"],
                blank=mass,
            )
    yield _resin(setup, told, mass)
    yield _warmth(setup, told)
    yield _sinking(setup, told, length)
    yield Measure(
        what="edge after a week",
        how="mold's width less the cube's, over the mold's width; three places, caliper",
        expected=f"{format_share(1.0 - told.after_week_m / told.edge_m, digits=2)} less",
        goes_to=["sizes.casting_shrinkage"],
        blank=length,
    )
    yield from _looks(told)


def _resin(setup: Setup, told: TestCube, mass: str) -> Measure:
    step, how = tools(setup.job).scale_step, "pail before less pail after"
    neat, beds = ([layer for layer in told.layers if (layer.grade is None) is bare] for bare in (True, False))
    if beds:
        less = format_mass(sum(layer.resin_kg for layer in neat), setup.system, step=step)
        volume = sum(layer.volume_m3 for layer in beds) * 1e6
        how += (
            f"; less the {less} of neat layers, over {setup.resin.density.value / 1e3:.2f} g/ml and over "
            f"{volume:.0f} ml it is the mean voids, where glass was not weighed"
        )
    return Measure(
        what="resin in all",
        how=how,
        expected=format_mass(sum(layer.resin_kg for layer in told.layers), setup.system, step=step),
        goes_to=["band.void_fraction"] if beds else [],
        blank=mass,
    )


def _warmth(setup: Setup, told: TestCube) -> Measure:
    degrees = "°C" if setup.system is UnitSystem.METRIC else "°F"
    expected = "runs away"
    if told.peak_degC is not None and told.peak_after_h is not None:
        peak = format_temperature(told.peak_degC + ZERO_CELSIUS, setup.system)
        after = format_duration(round(told.peak_after_h) * 3600.0)
        expected = f"about {peak}, after {after}, poured at once"
    return Measure(
        what="peak in the middle",
        how="the logger; that of the cup beside it goes to the facts of the resin",
        expected=expected,
        goes_to=["cup.file", "cup.mass", "cup.diameter", "cup.mixed"],
        blank=degrees,
    )


def _sinking(setup: Setup, told: TestCube, length: str) -> Measure:
    likely, most = (format_bend(max(each, 0.0), setup.system) for each in (told.sink_m, told.sink_most_m))
    planing = format_bend(FINISH["planing"].value, setup.system)
    return Measure(
        what="sink of the open face",
        how=f"in its middle under a straight edge; times {told.sink_times:.1f} and {planing} to plane",
        expected=f"{likely}, at most {most}",
        goes_to=["fill.overfill"],
        blank=length,
    )


def _looks(told: TestCube) -> Iterator[Measure]:
    keys = ["band.colour", "band.grade"] if told.grain_m else []
    yield Measure(what="colour", how=COLOUR, expected="", goes_to=keys, blank="")
    yield Measure(
        what="hardness",
        how="thumbnail, then a steel point, on a neat place; the day it no longer took a mark",
        expected="",
        goes_to=[],
        blank="days",
    )
    if len(told.layers) > 1:
        yield Measure(
            what="borders",
            how="how far grains of two bands lie among each other, seen from the side",
            expected="",
            goes_to=[],
            blank="",
        )
    if told.grain_m:
        yield Measure(
            what="a side sanded",
            how="minutes to a face you like, and how much it took off",
            expected="",
            goes_to=["sizes.sand_sides"],
            blank="min",
        )


def job_lines(setup: Setup, cube: Cube) -> Iterator[str]:
    """Lines of the job file that take the numbers, with blanks.

    Parameters
    ----------
    setup : Setup
        For the units.
    cube : Cube
        The cube.

    Yields
    ------
    str
        TOML once the blanks are filled in.
    """
    mass, length = UNITS[setup.system]
    for layer in cube.layers:
        if layer.band.grade:
            volume = f"{layer.band.volume * 1e6:.0f} ml"
            named = _named(layer.band.colour, layer.band.grade)
            yield f"[[band]]  # number {layer.number} from the floor, {named}"
            yield f'bucket_test = {{ mass = "{BLANK} {mass}", volume = "{volume}" }}'
    yield "[fill]"
    yield f'overfill = "{BLANK} {length}"'
    yield "[sizes]"
    yield f'casting_shrinkage = "{BLANK} %"'


def facts_lines(setup: Setup) -> Iterator[str]:
    """Lines of the facts of the resin that take the cup beside the cube.

    Parameters
    ----------
    setup : Setup
        For the units.

    Yields
    ------
    str
        TOML once the blanks are filled in.
    """
    mass, length = UNITS[setup.system]
    yield "[[cup]]"
    yield f'file = "{BLANK}.csv"'
    yield f'mass = "{BLANK} {mass}"'
    yield f'diameter = "{BLANK} {length}"'
    yield f'mixed = "{BLANK} min"'


def notes(setup: Setup, told: TestCube) -> Iterator[str]:
    """Say what the cube can tell and what not.

    Parameters
    ----------
    setup : Setup
        For the words.
    told : TestCube
        The numbers.

    Yields
    ------
    str
    """
    yield f"{COOLER} Here it has {told.cools_by:.1f} times the piece's surface to its volume."
    shrinks = 1.0 - told.after_week_m / told.edge_m
    tenth, hides = format_bend(1e-4, setup.system), format_share(told.caliper, digits=2)
    text = f"A tenth of a millimetre on the caliper is {hides} of this edge"
    if setup.system is UnitSystem.US:
        text = f"{tenth} on the caliper is {hides} of this edge"
    weak = told.caliper > 0.5 * shrinks
    worth = "no more than to see that nothing is badly off" if weak else "worth writing down"
    yield (
        f"{text}, where {format_share(shrinks, digits=2)} are reckoned: {worth}. Only from a rubber mold: "
        "casting_shrinkage takes the place of the warm rubber too."
    )
    yield (
        "The cube gels cooler than the piece, so it swells less and sinks by more for its depth: an overfill "
        "taken from it is on the safe side."
    )
    if told.left_out:
        yield f"{told.left_out} bands are like another one and not in the cube."


def cube_warnings(setup: Setup, told: TestCube) -> Iterator[str]:
    """Say what must be minded.

    Parameters
    ----------
    setup : Setup
        For the words.
    told : TestCube
        The numbers.

    Yields
    ------
    str
    """
    limit = format_temperature(told.peak_limit_degC + ZERO_CELSIUS, setup.system)
    edge = format_length(told.edge_m, setup.system)
    if told.peak_degC is None or told.peak_degC > told.peak_limit_degC:
        yield (
            f"A test cube of {edge} poured at once gets hotter than {limit}: pour it in thinner layers, each "
            "gelled and cool before the next, or write a smaller fill.test_cube."
        )
    if told.edge_m < CUBE["grains"].value * told.grain_m - 1e-9:
        yield (
            f"A test cube of {edge} holds fewer than {CUBE['grains'].value:g} of its largest grains across: "
            "its walls make the voids, not the glass."
        )
