"""How hot it gets, when it gels, when the next pour goes on."""

import math

from pourwright.jobs.plan import PlanDocument, Pour
from pourwright.jobs.plan_part import Point
from pourwright.sheets.pages.common import Page, as_standing, both_readings, table
from pourwright.sheets.pages.soft import sanded, wash_first
from pourwright.sheets.wording import Wording


def heat_page(plan: PlanDocument) -> Page:
    """Fill the temperature page.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    dict
        A table with one row per pour, and notes.
    """
    words = Wording(plan.job)
    heads = ["pour", "hottest", "limit", "after", "where", "all gelled after", "rubber's face"]
    rows = [_row(pour, plan, words) for pour in plan.pours]
    windows = [_window_row(pour, plan, words) for pour in plan.pours]
    return {
        **table(heads, rows, "lrrrlrr"),
        "over": [pour.peak_temperature_degC > pour.peak_limit_degC for pour in plan.pours],
        "windows": table(["pour", "bonds to the next one", "pour the next one", "then"], windows, "llll"),
        "notes": _notes(plan, words),
    }


def _row(pour: Pour, plan: PlanDocument, words: Wording) -> list[str]:
    return [
        str(pour.number),
        peak_words(pour, words),
        words.temperature(pour.peak_limit_degC),
        words.duration(pour.peak_after_h),
        place(pour.peak_place_m, plan, words),
        gel_words(pour, words),
        words.temperature(pour.face_peak_degC),
    ]


def _window_row(pour: Pour, plan: PlanDocument, words: Wording) -> list[str]:
    if pour.next_until is not None and wash_first(pour.number, plan) is not None:
        return [str(pour.number), "void: its top blushes", next_words(pour, words), "wash and sand first"]
    if sanded(pour.number, plan):
        return [str(pour.number), bond_words(pour, words), "nobody is there then", "wash and sand first"]
    return [
        str(pour.number),
        bond_words(pour, words),
        next_words(pour, words),
        "" if pour.next_until is None else "sand first",
    ]


def peak_words(pour: Pour, words: Wording) -> str:
    """How hot a pour gets, with its band where it is known.

    Parameters
    ----------
    pour : Pour
        Of the plan.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        As ``54 °C (49 to 61)``.
    """
    return words.banded_temperature(
        pour.peak_temperature_degC, pour.peak_temperature_degC_p10, pour.peak_temperature_degC_p90
    )


def gel_words(pour: Pour, words: Wording) -> str:
    """How long after its start a pour has gelled, with its band where it is known.

    Parameters
    ----------
    pour : Pour
        Of the plan.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        As ``15 h 30 min (14 h to 18 h)``.
    """
    return words.banded_duration(pour.gel_after_h, pour.gel_after_h_p10, pour.gel_after_h_p90)


def bond_words(pour: Pour, words: Wording) -> str:
    """Within what time the next pour bonds to this one, each end with its band where it is known.

    Parameters
    ----------
    pour : Pour
        Of the plan.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        As ``17 h to 31 h after its start``.
    """
    first = words.banded_duration(pour.bonds_from_h, pour.bonds_from_h_p10, pour.bonds_from_h_p90)
    last = words.banded_duration(pour.bonds_until_h, pour.bonds_until_h_p10, pour.bonds_until_h_p90)
    return f"{first} to {last} after its start"


def next_words(pour: Pour, words: Wording) -> str:
    """When the next pour goes on, in words.

    Parameters
    ----------
    pour : Pour
        The pour below it.
    words : Wording
        The maker's clock.

    Returns
    -------
    str
        The times, or that it is the last one.
    """
    if pour.next_from is None or pour.next_until is None:
        return "last pour"
    return words.window(pour.next_from, pour.next_until)


def place(point: Point, plan: PlanDocument, words: Wording) -> str:
    """A place in the mold in words.

    Parameters
    ----------
    point : tuple of float
        x, y, z as poured [m].
    plan : PlanDocument
        The plan.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        Height in both readings, and how far off the middle.
    """
    off = math.hypot(point[0], point[1])
    where = "in the middle" if off < 2e-3 else f"{words.length(off)} off the middle"
    up = both_readings(point[2], as_standing(point[2], plan), plan, words)
    return f"up {up}, {where}"


def _notes(plan: PlanDocument, words: Wording) -> list[str]:
    notes = [_demold_note(plan, words), _run_note(plan, words)]
    limit = plan.heat.rubber_limit_degC
    if limit is not None:
        face = words.temperature(max(pour.face_peak_degC for pour in plan.pours))
        notes.append(f"The rubber's face gets to {face}; the rubber bears {words.temperature(limit)}.")
    return notes


def _demold_note(plan: PlanDocument, words: Wording) -> str:
    demold = plan.demold
    if demold.at is None or demold.after_h is None:
        stays = f"stays {words.share(demold.cured)} cured ({place(demold.place_m, plan, words)})"
        return (
            f"It does not get hard enough in this shop: the least-cured place {stays}. Warm the mold "
            "slowly, as the data sheet allows."
        )
    ready = words.banded_duration(demold.after_h, demold.after_h_p10, demold.after_h_p90)
    when = f"{ready} after the last pour starts{_kept(plan, words)}, on {words.moment(demold.at)}"
    soft = words.temperature(demold.glass_transition_degC)
    return (
        f"It may leave the mold {when}: {demold.rule}. The least-cured place is then "
        f"{words.share(demold.cured)} cured and soft above {soft} ({place(demold.place_m, plan, words)})."
    )


def _kept(plan: PlanDocument, words: Wording) -> str:
    """The later time by which nearly every such casting is hard, which the day of demolding follows."""
    if plan.chances is None or plan.demold.kept_after_h is None:
        return ""
    kept = words.duration(plan.demold.kept_after_h)
    return f", to be sure in {100.0 * plan.chances.probability:g} in 100 after {kept}"


def _run_note(plan: PlanDocument, words: Wording) -> str:
    heat = plan.heat
    cells = f"{heat.cells:,} cells of {words.length(heat.spacing_m)}"
    error = words.small_difference(heat.grid_error_K)
    return (
        f"Computed in {heat.steps} steps on {cells}. Because of the cells' size the hottest place may be "
        f"off by {error}, and gel, bond and demold by {words.share(heat.time_grid_error)} of their time."
    )
