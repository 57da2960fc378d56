"""Answers as the maker reads them in the terminal."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from rich.console import Console, RenderableType
from rich.table import Table
from rich.text import Text

from pourwright.cli.chance_lines import chance_rows, what_if_rows
from pourwright.cli.hollow_rows import hollow_rows
from pourwright.cli.size_tables import size_rows
from pourwright.cli.soft_tables import soft_rows
from pourwright.cli.words import Words

Part = Mapping[str, Any]
# what a job without variants calls its one plan
_ONLY_VARIANT = "main"
_LIGHTS = ("red", "amber", "green")
_MARKS = {"ok": ("ok  ", "green"), "mind": ("mind", "yellow"), "stop": ("stop", "bold red")}


class _Paper(Console):
    """A console that leaves a reader's closing of the pipe to the command line."""

    def on_broken_pipe(self) -> None:
        """Pass it on; rich would end the program with a status of its own."""
        raise BrokenPipeError


def show(parts: Iterable[RenderableType]) -> None:
    """Print on stdout; a pipe gets plain text of fixed width.

    Parameters
    ----------
    parts : iterable
        What rich can print.
    """
    console = _Paper(highlight=False)
    if not console.is_terminal:
        console = _Paper(highlight=False, width=110)
    for part in parts:
        console.print(part)


def plan_lines(plan: Part) -> Iterator[RenderableType]:
    """Lay out one plan: what it is, the pours, what to have ready, when it is done, what to mind.

    Parameters
    ----------
    plan : mapping
        The plan document as JSON.

    Yields
    ------
    RenderableType
    """
    words = Words.of(plan["job"])
    yield headline(plan["job"])
    yield Text()
    yield _mixes(plan["pours"], words, flipped=plan["piece"]["flipped"])
    yield Text()
    yield _heat(plan["pours"], words)
    yield Text()
    yield facts(
        [
            *_piece(plan["piece"], words),
            *hollow_rows(plan.get("hollow"), words),
            *size_rows(plan.get("sizes"), words),
            *_fill(plan["fill"], words),
            *_mold(plan["mold"], words),
            *_end(plan, words),
            *soft_rows(plan.get("soft"), words),
            *chance_rows(plan.get("chances")),
            *what_if_rows(plan.get("what_if", [])),
        ]
    )
    yield Text()
    yield from remark_lines("Warnings", plan["warnings"], "yellow")
    yield from remark_lines("Take care", plan["cautions"], "")


def check_lines(report: Part) -> Iterator[RenderableType]:
    """Lay out what can be said before the heat run.

    Parameters
    ----------
    report : mapping
        The check's answer as JSON; parts that could not be reckoned are missing or null.

    Yields
    ------
    RenderableType
    """
    words = Words.of(report["job"])
    yield headline(report["job"])
    tellers = {"piece": _piece, "hollow": hollow_rows, "sizes": size_rows, "fill": _fill, "mold": _mold}
    yield facts([row for key, tell in tellers.items() if report.get(key) for row in tell(report[key], words)])
    for finding in report["findings"]:
        mark, style = _MARKS[finding["level"]]
        yield Text.assemble((mark, style), "  ", finding["text"])


def headline(job: Part) -> Text:
    """Title and variant of a job."""
    variant = f"  variant {job['variant']}" if job["variant"] not in {"", _ONLY_VARIANT} else ""
    invented = "  (an example: its data are invented)" if job["invented"] else ""
    return Text.assemble((job["title"], "bold"), variant, (invented, "dim"))


def columns(titles: Iterable[str]) -> Table:
    """An empty table with its titles."""
    table = Table(box=None, pad_edge=False, header_style="dim")
    for title in titles:
        table.add_column(title, no_wrap=True)
    return table


def _mixes(pours: list[Part], words: Words, *, flipped: bool) -> Table:
    """When, how far up and how much; both readings of the level where they differ."""
    table = columns(["pour", "start", "from floor", *["as it stands"] * flipped, "dip from rim", "A", "B"])
    for pour in pours:
        table.add_row(
            str(pour["number"]),
            words.moment(pour["start"]),
            words.length(pour["to_m"]),
            *[words.length(pour["to_standing_m"])] * flipped,
            words.length(pour["dip_to_m"]),
            words.weighed(pour["part_a_kg"]),
            words.weighed(pour["part_b_kg"]),
        )
    return table


def _heat(pours: list[Part], words: Words) -> Table:
    """How hot, how soon it gels, and when the next one goes on."""
    table = columns(["pour", "hottest", "limit", "after", "all gelled after", "pour the next one between"])
    sanded = {pour["number"] - 1 for pour in pours if pour.get("sand_first")}
    for pour in pours:
        hot = pour["peak_temperature_degC"] > pour["peak_limit_degC"]
        table.add_row(
            str(pour["number"]),
            Text(words.temperature(pour["peak_temperature_degC"]), style="bold red" if hot else ""),
            words.temperature(pour["peak_limit_degC"]),
            words.duration(pour["peak_after_h"]),
            words.duration(pour["gel_after_h"]),
            "wash and sand it first" if pour["number"] in sanded else _next(pour, words),
        )
    return table


def _next(pour: Part, words: Words) -> str:
    if pour["next_from"] is None or pour["next_until"] is None:
        return ""
    return f"{words.moment(pour['next_from'])} and {words.moment(pour['next_until'])}"


def facts(rows: Iterable[tuple[str, str]]) -> Table:
    """Names and what holds for them."""
    table = Table(box=None, pad_edge=False, show_header=False)
    table.add_column(style="dim", no_wrap=True)
    table.add_column()
    for row in rows:
        table.add_row(*row)
    return table


def _piece(piece: Part, words: Words) -> Iterator[tuple[str, str]]:
    turned = _turned(piece)
    name = piece.get("casting_material_name") or piece["casting_material"]
    size = f"{words.length(piece['height_m'])} high{turned}, {words.doubted_volume(piece)}"
    yield "Piece", f"{size}, {words.mass(piece['mass_kg'])} of {name}"


def _turned(piece: Part) -> str:
    if piece["flipped"]:
        return ", poured upside down"
    if piece["up"] == "+z":
        return ""
    return ", poured askew" if "," in piece["up"] else f", poured on its side, {piece['up']} up"


def _fill(fill: Part, words: Words) -> Iterator[tuple[str, str]]:
    lots = [f"{words.mass(lot['mass_kg'])} {lot['colour']} {lot['grade']}" for lot in fill["glass"]]
    yield "Glass", ", ".join(lots) or "none"
    yield "Resin", f"{words.mass(fill['resin_kg'])} mixed, all losses in it"


def _mold(mold: Part, words: Words) -> Iterator[tuple[str, str]]:
    rubber, hold = mold["rubber"], mold["hold_down"]
    parts = f"{words.mass(rubber['part_a_kg'])} A + {words.mass(rubber['part_b_kg'])} B"
    amount = f"{words.volume(rubber['volume_m3'])}, {words.mass(rubber['mass_kg'])}"
    yield "Rubber", f"{amount} of {rubber['name']}; mix {parts}, allowance in it"
    mark = rubber["fill_mark_before_master_m"]
    if mark is not None:
        level = words.length(rubber["level_after_master_m"])
        yield "Fill mark", f"{words.length(mark)} before the master goes in, {level} after"
    yield "Box", f"{words.size(mold['box']['inside_m'])} inside, {mold['box']['board']}"
    yield "Hold down", _hold_down(hold, words)
    yield "To lift", f"{words.mass(mold['filled_mass_kg'])} with the mold full"


def _hold_down(hold: Part, words: Words) -> str:
    lifts = f"the rubber lifts the master with {words.force(hold['buoyancy_N'])}"
    if hold["screws_needed"] is not None:
        return f"{lifts}; {hold['screws_needed']} screws, safety {hold['safety_factor']:g}"
    return f"{lifts}; {words.mass(hold['weight_needed_kg'])} on the bars, safety {hold['safety_factor']:g}"


def _end(plan: Part, words: Words) -> Iterator[tuple[str, str]]:
    heat = plan["heat"]
    yield "Demold", _demold(plan["demold"], words)
    cells = words.length(heat["spacing_m"]).replace(".0 mm", " mm")
    error = words.difference(heat["grid_error_K"])
    yield from _cracks(plan.get("cracks"), words)
    yield "Heat run", f"on a grid of {cells}; the hottest place may be off by about {error}"


def _cracks(cracks: Part | None, words: Words) -> Iterator[tuple[str, str]]:
    """The worst light of all, and how to cool and open it."""
    if cracks is None:
        return
    worst = max(cracks["places"], key=lambda place: (place["load"], place["load_high"]))
    where = f"most at {worst['mark']}, {worst['where']}: {words.share(worst['load'])} of what it may bear"
    counts = [(light, sum(place["light"] == light for place in cracks["places"])) for light in _LIGHTS]
    yield "Cracks", f"{', '.join(f'{count} {light}' for light, count in counts if count)}; {where}"
    yield "Open it", cracks["opening"]["text"]


def _demold(demold: Part, words: Words) -> str:
    cured = f"least-cured place {words.share(demold['cured'])} cured"
    if demold["at"] is None:
        return f"never hard enough in this shop: {cured}"
    likely = f"likely {words.duration(demold['after_h'])} after the last pour"
    kept = demold.get("kept_after_h")
    if kept is not None:
        likely += f", nearly surely {words.duration(kept)}"
    return f"{words.moment(demold['at'])}; {likely}; {cured}"


def remark_lines(title: str, remarks: Iterable[str], style: str) -> Iterator[Text]:
    """A list under its title; nothing where it is empty."""
    lines = list(remarks)
    if lines:
        yield Text(title, style=f"bold {style}".strip())
    for line in lines:
        yield Text(f"- {line}", style=style)
