"""Lists: shopping, calendar, mold box, go/no-go, cautions, reasons, sources."""

from collections.abc import Iterable
from itertools import groupby

from pourwright.jobs.plan import Event, Need, Panel, PlanDocument
from pourwright.sheets.pages.common import Page, fact, plural, table
from pourwright.sheets.wording import Wording


def shopping_page(plan: PlanDocument) -> Page:
    """Fill the shopping list.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    dict
        Rows with a box to tick, and the total of the prices given.
    """
    words = Wording(plan.job)
    priced = [need.price for need in plan.shopping if need.price is not None]
    open_lines = len(plan.shopping) - len(priced)
    total = ""
    if priced:
        total = f"Prices given come to {words.money(sum(priced))}."
    if open_lines:
        words_for = ("line has no price and is", "lines have no price and are")
        total += f" {plural(open_lines, *words_for)} left out."
    rows = [_need_row(need, words) for need in plan.shopping]
    return {**table(["", "what", "how much", "price", "note"], rows, "llrrl"), "total": total.strip()}


def _need_row(need: Need, words: Wording) -> list[str]:
    price = "" if need.price is None else words.money(need.price)
    return ["", need.item, quantity_words(need.quantity, need.unit, words), price, need.note]


def quantity_words(quantity: float, unit: str, words: Wording) -> str:
    """A quantity of the shopping list in the maker's units where its unit is SI.

    Parameters
    ----------
    quantity : float
        How much.
    unit : str
        ``kg``, ``m``, ``m2`` and ``m3`` are turned into the maker's; anything else stays.
    words : Wording
        The maker's units.

    Returns
    -------
    str
        As ``9.77 kg`` or ``8 pieces``.
    """
    known = {"kg": words.mass, "m": words.length, "m2": words.area, "m3": words.volume}
    return known[unit](quantity) if unit in known else f"{quantity:g} {unit}"


def calendar_page(plan: PlanDocument) -> Page:
    """Fill the calendar by day.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    dict
        Days with their entries.
    """
    words = Wording(plan.job)
    events = sorted(plan.calendar, key=lambda event: (words.local(event.start), event.title))
    grouped: Iterable[tuple[str, Iterable[Event]]] = groupby(events, key=lambda event: words.day(event.start))
    return {
        "days": [
            {"day": day, "entries": [_entry(event, words) for event in entries]} for day, entries in grouped
        ],
        "zone": f"Times are those of the shop's clock, {plan.job.time_zone}.",
    }


def _entry(event: Event, words: Wording) -> dict[str, str]:
    same = words.day(event.start) == words.day(event.end)
    until = words.clock(event.end) if same else words.moment(event.end)
    return {
        "time": words.clock(event.start),
        "until": f"to {until}" if event.start != event.end else "",
        "title": event.title,
        "detail": event.detail,
        "kind": event.kind,
    }


def mold_page(plan: PlanDocument) -> Page:
    """Fill the page of the mold box and its rubber.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    dict
        Numbers and the list of panels.
    """
    words, mold = Wording(plan.job), plan.mold
    rubber, hold = mold.rubber, mold.hold_down
    way = (
        "the master hangs in the box" if mold.method == "hung" else "the master is screwed to the base board"
    )
    needed = words.load(hold.weight_needed_kg)
    if mold.method == "screwed" and hold.screws_needed is not None:
        needed = plural(hold.screws_needed, "screw")
    if hold.bar_load_N > 0.0:
        needed_note = f"bars carry {words.force(hold.bar_load_N)} before"
    else:
        needed_note = f"worst at {words.length(hold.worst_level_m)} of rubber"
    weighs = f"master {words.mass(hold.master_mass_kg)}; factor {hold.safety_factor:g}"
    panels = ["panel", "how many", "length", "width", "thick", "pressure at its foot", "push"]
    return {
        "lead": f"One poured block, {way}. Box of {mold.box.board}; inside {words.size(mold.box.inside_m)}, "
        f"outside {words.size(mold.box.outside_m)}. Rubber: {rubber.name}.",
        "facts": [
            fact("rubber wall", words.length(rubber.wall_m), f"floor {words.length(rubber.base_m)}"),
            fact("rubber lifts with", words.force(hold.buoyancy_N), weighs),
            fact("holds it down", needed, needed_note),
            fact("mold empty", words.load(mold.empty_mass_kg), f"filled {words.load(mold.filled_mass_kg)}"),
        ],
        **table(panels, [_panel_row(panel, words) for panel in mold.box.panels], "lrrrrrr"),
        "head": f"Pressure of the liquid rubber at the bottom: {words.pressure(rubber.head_at_bottom_Pa)}."
        + _seams(plan, words),
    }


def _seams(plan: PlanDocument, words: Wording) -> str:
    seams = [
        f"{seam.name} {words.length(seam.length_m)} at up to {words.pressure(seam.pressure_Pa)}"
        for seam in plan.mold.seams
    ]
    return f" Seams to seal: {'; '.join(seams)}." if seams else ""


def _panel_row(panel: Panel, words: Wording) -> list[str]:
    sizes = [words.length(edge) for edge in (panel.length_m, panel.width_m, panel.thickness_m)]
    return [
        panel.name,
        str(panel.count),
        *sizes,
        words.pressure(panel.pressure_at_bottom_Pa),
        words.force(panel.thrust_N),
    ]


def checks_page(plan: PlanDocument) -> Page:
    """Fill the go/no-go list.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    dict
        Lines to tick, with why; cautions.
    """
    lines = [{"text": check.text, "why": check.why} for check in plan.go_no_go]
    return {"lines": lines, "cautions": list(plan.cautions)}


def sources_page(plan: PlanDocument) -> Page:
    """Fill the page of reasons and sources.

    Parameters
    ----------
    plan : PlanDocument
        The plan.

    Returns
    -------
    dict
        Reasons, sources, and what the plan was made from.
    """
    words = Wording(plan.job)
    sources = [[source.citation, source.kind, source.used_for] for source in plan.sources]
    made = [
        f"Made by version {plan.version}, seed {plan.seed}, for {words.dated(plan.computed_for)}.",
        *(f"Made from {name}, sha256 {digest[:16]}…" for name, digest in sorted(plan.inputs.items())),
    ]
    return {
        "reasons": [{"key": reason.key, "text": reason.text} for reason in plan.reasons],
        **table(["source", "kind", "used for"], sources, "lll"),
        "made": made,
    }
