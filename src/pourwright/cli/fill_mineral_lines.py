"""Gypsum and concrete, as the maker reads them in the terminal."""

from collections.abc import Iterator, Mapping
from typing import Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.cli.tables import columns, facts
from pourwright.cli.words import Words

Part = Mapping[str, Any]
WHY = {"pail": "three quarters of the pail", "scale": "what the scale carries", "time": "its working time"}


def mineral_lines(part: Part, words: Words) -> Iterator[RenderableType]:
    """Tell what is mixed, when it comes out of the mold, and how long it dries.

    Parameters
    ----------
    part : mapping
        The part `mineral` of the answer.
    words : Words
        The maker's units.

    Yields
    ------
    RenderableType
    """
    yield Text()
    yield Text(f"{part['name']} and water", style="bold")
    if part["batches"]:
        yield _steps(part, words)
    rows = [
        ("Mix", f"{words.mass(part['mixed_kg'])} in all, {words.share(part['allowance'])} on top in it"),
        ("Powder", _powder(part, words)),
        (
            "Water",
            f"{words.mass(part['water_kg'])}, {100 * part['water_ratio']:.0f} to 100 of powder by weight",
        ),
    ]
    if part["aggregate_kg"]:
        share = words.share(part["aggregate_share"])
        rows.append(
            ("Glass", f"{words.mass(part['aggregate_kg'])} {part['aggregate_grade']}, {share} of the volume")
        )
    if part["most_kg"] is not None:
        rows.append(("Batch", f"{words.weighed(part['most_kg'])} at most, by {WHY[part['most_by']]}"))
    yield facts([*rows, *_after(part, words)])
    for number, step in enumerate(part["steps"], 1):
        yield Text(f"{number}. {step}")


def _steps(part: Part, words: Words) -> Table:
    glass = bool(part["aggregate_kg"])
    table = columns(["batch", "water", "powder", *(["glass"] if glass else []), "in after"])
    for step in part["batches"]:
        table.add_row(
            f"{step['number']} of {len(part['batches'])}",
            words.weighed(step["water_kg"]),
            words.weighed(step["powder_kg"]),
            *([words.weighed(step["aggregate_kg"])] if glass else []),
            words.duration(step["in_after_h"]),
        )
    return table


def _powder(part: Part, words: Words) -> str:
    told = words.mass(part["powder_kg"])
    if part["cement_kg"] is None:
        return told
    return (
        f"{told} dry mix; from scratch {words.mass(part['cement_kg'])} cement, "
        f"{words.mass(part['sand_kg'])} fine sand"
    )


def _after(part: Part, words: Words) -> Iterator[tuple[str, str]]:
    dries = part["drying"]
    yield "Presses", f"{words.pressure(1e3 * part['pressure_kPa'])} on the box at the mold's floor"
    if part["setting_h"] is not None:
        yield "Times", _times(part, words)
    yield (
        "Piece",
        (
            f"{words.mass(part['wet_kg'])} out of the mold, {words.mass(part['dry_kg'])} dry: "
            f"{words.mass(dries['water_kg'])} ({words.volume(dries['water_m3'])}) of water must dry out"
        ),
    )
    yield "Dry", _dry(dries, words)
    yield "", dries["know"]
    yield "Size", _size(part, words)
    if part["adiabatic_rise_K"] is not None:
        where = ", below" if part["heat_run"] else ": --heat"
        rise = words.difference(part["adiabatic_rise_K"])
        yield "Heat", f"{rise} warmer if none were lost, {part['heat_MJ']:.2g} MJ; how hot it gets{where}"


def _times(part: Part, words: Words) -> str:
    pours, sets, out = (words.duration(part[name]) for name in ("working_h", "setting_h", "demold_h"))
    return (
        f"pours for {pours}, hard after {sets}, out of the mold after {out}, at "
        f"{words.temperature(part['times_at_degC'])}"
    )


def _dry(dries: Part, words: Words) -> str:
    if dries["soonest_days"] is None:
        return str(dries["text"])
    air = f"{words.temperature(dries['air_degC'])} and {words.share(dries['humidity'])}"
    return (
        f"{dries['text']} in still air of {air}; {words.mass(dries['first_day_kg'])} leave on the first day"
    )


def _size(part: Part, words: Words) -> str:
    change = part["change_mm"]
    if not change:
        return "its record tells of no change"
    does = "grows as it sets" if change > 0 else "shrinks as it dries"
    return f"{does}: {words.fine(abs(change) / 1e3)} over its longest side"
