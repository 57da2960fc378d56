"""The two pictures of the heat: the hottest moment, and what stays coldest until demold."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from pourwright.foundation.notation import UnitSystem
from pourwright.jobs.plan import HeatSection, PlanDocument, Pour
from pourwright.sheets.field_cut import Captions, FieldCut, Outlines
from pourwright.sheets.field_drawing import LEFT, SMALL, draw_field
from pourwright.sheets.ramps import HARD, WARM
from pourwright.sheets.svg import text_width
from pourwright.sheets.wording import Wording, readings_differ

HEAT_PICTURES = HOTTEST, DEMOLD = "hottest-moment.svg", "coldest-at-demold.svg"
LEAST_DEGREES = {UnitSystem.METRIC: 0.5, UnitSystem.US: 1.0}
LEAST_CURE = 0.5
MIDDLE = 2e-3
FEW = 6
"""So many pours leave room for three lines each beside the cut."""
BEYOND = {"x": ("right of", "left of"), "y": ("behind", "in front of")}
VIEW = {"x": ("from front to back", "the right"), "y": ("from left to right", "the front")}


def heat_pictures(plan: PlanDocument) -> dict[str, str]:
    """Draw the cuts that the plan holds.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    dict
        SVG document by file name; empty for a plan made before there were such cuts.
    """
    draw = {"hottest": _draw_hottest, "demold": _draw_demold}
    return dict(draw[section.moment](plan, section) for section in plan.heat.sections)


def _draw_hottest(plan: PlanDocument, section: HeatSection) -> tuple[str, str]:
    words, pour = Wording(plan.job), plan.pours[section.pour - 1]
    degrees = words.degree_sign
    shown = np.vectorize(words.degrees, otypes=[float])(_values(section.temperature_degC))
    hottest = words.temperature(pour.peak_temperature_degC)
    when = words.moment(words.after(pour.start, pour.peak_after_h))
    after = words.duration(pour.peak_after_h)
    reading = "The darker, the hotter; along a line it is equally hot."
    captions = Captions(
        owner=plan.job.title,
        title=f"The hottest moment: {hottest}",
        lines=(
            f"Pour {pour.number}, {after} after it starts: {when}. {reading}",
            _cut_words(section, words, "hottest"),
        ),
        unit=degrees,
        levels=_levels(plan, section, words),
        mark=_mark(section),
        mark_lines=(f"hottest: {hottest}", *_place(plan, section, words)),
    )
    cut = _cut(section, shown, pour.to_m, LEAST_DEGREES[words.system], whole=True)
    return HOTTEST, draw_field(cut, captions, WARM)


def _draw_demold(plan: PlanDocument, section: HeatSection) -> tuple[str, str]:
    words, last = Wording(plan.job), plan.pours[-1]
    cured = words.share(plan.demold.cured)
    captions = Captions(
        owner=plan.job.title,
        title=f"The coldest place at demold: {cured} cured",
        lines=(
            f"{_hard(plan, section, words)} The darker, the less cured: what stays cold hardens last.",
            _cut_words(section, words, "least-cured"),
        ),
        unit="% cured",
        levels=_levels(plan, section, words),
        mark=_mark(section),
        mark_lines=(f"least cured: {cured}", *_place(plan, section, words)),
    )
    cut = _cut(section, 100.0 * _values(section.cured), last.to_m, LEAST_CURE, whole=False)
    return DEMOLD, draw_field(cut, captions, HARD)


def _values(rows: list[list[float | None]]) -> NDArray[np.float64]:
    return np.array(rows, dtype=float)


def _cut(
    section: HeatSection, shown: NDArray[np.float64], filled_to: float, least: float, *, whole: bool
) -> FieldCut:
    lines = section.outlines
    outlines = Outlines(lines.piece, lines.rubber, lines.panels)
    across, up = np.array(section.across_m), np.array(section.up_m)
    return FieldCut(across, up, shown, outlines, whole, filled_to, least)


def _hard(plan: PlanDocument, section: HeatSection, words: Wording) -> str:
    if plan.demold.after_h is None:
        return f"Not hard enough {words.duration(section.after_h)} after the last pour starts."
    return f"Hard enough {words.duration(plan.demold.after_h)} after the last pour starts."


def _cut_words(section: HeatSection, words: Wording, place: str) -> str:
    runs, side = VIEW[section.axis]
    beyond = BEYOND[section.axis][section.offset_m < 0.0]
    where = "through the middle"
    if abs(section.offset_m) >= MIDDLE:
        where = f"{beyond} the middle by {words.length(abs(section.offset_m))}"
    return f"Cut {runs} through the {place} place, {where}, seen from {side}."


def _levels(plan: PlanDocument, section: HeatSection, words: Wording) -> list[tuple[float, tuple[str, ...]]]:
    poured = [pour for pour in plan.pours if pour.number <= section.pour]
    few = len(poured) <= FEW
    return [(pour.to_m, (f"pour {pour.number}", *_level(pour, plan, words, few=few))) for pour in poured]


def _level(pour: Pour, plan: PlanDocument, words: Wording, *, few: bool) -> tuple[str, ...]:
    """A level in both readings: on one line, or on two where few pours leave room for them."""
    up = f"up {words.length(pour.to_m)}"
    if not readings_differ(plan):
        return (up,)
    standing = f"({words.length(pour.to_standing_m)})"
    if text_width(f"{up} {standing}", SMALL) < LEFT - 12.0:
        return (f"{up} {standing}",)
    return (up, standing) if few else (up,)


def _mark(section: HeatSection) -> tuple[float, float]:
    x, y, z = section.place_m
    return (x if section.axis == "y" else y), z


def _place(plan: PlanDocument, section: HeatSection, words: Wording) -> tuple[str, ...]:
    x, y, z = section.place_m
    off = float(np.hypot(x, y))
    lines = [f"up {words.length(z)}"]
    if readings_differ(plan):
        lines.append(f"({words.length(plan.piece.height_m - z)} as it stands)")
    return (*lines, "in the middle" if off < MIDDLE else f"{words.length(off)} off the middle")
