"""Mix tickets: one page for the rubber, one for each pour."""

from math import floor

from pourwright.jobs.plan import HoldDown, PlanDocument, Pour, Standing
from pourwright.sheets.pages.common import Page, batch_rows, both_readings, fact, plural, ratio, weight_size
from pourwright.sheets.pages.core import core_after, core_lines, insert_lines
from pourwright.sheets.pages.heat import gel_words, next_words, peak_words
from pourwright.sheets.pages.soaking import soak_lines
from pourwright.sheets.pages.soft import sanded, too_damp, wash_first
from pourwright.sheets.wording import Wording

LOOK_AT_PATCH = "Look at the test patch"
RESIN_CAUTION = "Gloves, goggles, fresh air. Never leave a mixed pail standing: it can run hot and smoke."
SMOKE_CAUTION = "A pail that gets hot goes outdoors, away from all that burns; keep out of its smoke."
RUBBER_CAUTION = "Gloves and goggles. Stir both parts before weighing; scrape sides and floor of the pail."


def ticket_pages(plan: PlanDocument, host: str = "") -> list[Page]:
    """Fill the tickets, the rubber's first.

    Parameters
    ----------
    plan : PlanDocument
        The plan.
    host : str
        Name of the computer whose bench a phone may open; nothing is printed of it where it is empty.

    Returns
    -------
    list of dict
        One per page.
    """
    words = Wording(plan.job)
    return [_rubber_ticket(plan, words), *(_pour_ticket(pour, plan, words, host) for pour in plan.pours)]


def _rubber_ticket(plan: PlanDocument, words: Wording) -> Page:
    rubber = plan.mold.rubber
    return {
        "key": "rubber",
        "head": "Rubber",
        "when": _rubber_start(plan, words),
        "material": rubber.name,
        "facts": _rubber_facts(plan, words),
        "before": _rubber_before(plan, words),
        "blocked": _blocked(plan, words),
        "batches": batch_rows(rubber.batches, words),
        "size": weight_size(len(rubber.batches)),
        "caution": f"{RUBBER_CAUTION} In the box within {words.duration(rubber.working_time_h)} of mixing.",
        "after": [f"Leave it {words.duration(rubber.demold_time_h)} before the master comes out."],
        "blanks": ["started", "finished", "shop temperature", "level reached"],
    }


def _rubber_start(plan: PlanDocument, words: Wording) -> str:
    named = [event for event in plan.calendar if event.kind == "mold" and "rubber" in event.title.lower()]
    return words.moment(named[0].start) if named else ""


def _rubber_facts(plan: PlanDocument, words: Wording) -> list[dict[str, str]]:
    rubber = plan.mold.rubber
    facts = [
        fact(
            "mix in all",
            words.mass(rubber.part_a_kg + rubber.part_b_kg),
            plural(len(rubber.batches), "batch", "batches"),
        )
    ]
    facts.append(
        fact(
            "A : B by weight",
            ratio(rubber.parts_by_weight),
            _parts(rubber.part_a_kg, rubber.part_b_kg, words),
        )
    )
    if rubber.fill_mark_before_master_m is not None:
        mark = words.length(rubber.fill_mark_before_master_m)
        facts.append(
            fact("fill to this mark first", mark, "up from the box's floor, before the master goes in")
        )
    after = "with the master in" if plan.mold.method == "hung" else "over the master, from the box's floor"
    return [*facts, fact("level at the end", words.length(rubber.level_after_master_m), after)]


def _parts(part_a: float, part_b: float, words: Wording) -> str:
    return f"A {words.mass(part_a)}, B {words.mass(part_b)}"


def _blocked(plan: PlanDocument, words: Wording) -> str:
    """What stands before any mixing, while no test patch has passed."""
    patch = plan.mold.patch
    if not patch.blocked:
        return ""
    looks = [event.start for event in plan.calendar if event.title == LOOK_AT_PATCH]
    due = f": do it by {words.moment(looks[0])}" if looks else ""
    told = f"the test patch is due on {patch.passed}" if patch.passed else "test patch not passed"
    return f"Do not mix: {told}{due}."


def _rubber_before(plan: PlanDocument, words: Wording) -> list[str]:
    rubber = plan.mold.rubber
    lines = [_tried(plan)]
    if rubber.fill_mark_before_master_m is not None:
        lines.append(f"Mark drawn inside the box, {words.length(rubber.fill_mark_before_master_m)} up.")
    return [*lines, _hold_down(plan.mold.hold_down, words), "Box level, seams sealed, clamps tight."]


def _tried(plan: PlanDocument) -> str:
    patch = plan.mold.patch
    if patch.passed and not patch.blocked:
        return f"Master sealed and released; the test patch came off clean on {patch.passed}."
    if patch.blocked:
        return "Master sealed and released. Test patch cured, and off clean, on"
    return "Master sealed and released; a small test of this rubber on it has set and comes off clean."


def _hold_down(hold: HoldDown, words: Wording) -> str:
    push = f"The rubber lifts the master with {words.force(max(hold.net_force_N, 0.0))} more than it weighs"
    margin = f"safety factor {hold.safety_factor:g}"
    if hold.method == "screwed" and hold.screws_needed is not None:
        return f"{push}: {plural(hold.screws_needed, 'screw')} from below ({margin})."
    if hold.weight_needed_kg <= 0.0:
        return "The master sinks by itself; the bars only carry it."
    return f"{push}: {words.load(hold.weight_needed_kg)} on the bars ({margin})."


def _pour_ticket(pour: Pour, plan: PlanDocument, words: Wording, host: str) -> Page:
    dip = words.length(pour.dip_to_m)
    return {
        "key": f"pour-{pour.number}",
        "head": f"Pour {pour.number} of {len(plan.pours)}",
        "when": words.moment(pour.start),
        "bench": f"On a paired phone: bench of {host}, pour {pour.number}." if host else "",
        "material": plan.piece.casting_material_name or plan.piece.casting_material,
        "facts": [
            fact("stop when the dip is", dip, "down from the rim"),
            fact("level, up from the mold's floor", words.length(pour.to_m), _as_standing(pour, plan, words)),
            fact(
                "mix in all",
                words.mass(pour.part_a_kg + pour.part_b_kg),
                plural(len(pour.batches), "batch", "batches"),
            ),
            fact(
                "A : B by weight",
                ratio(plan.fill.parts_by_weight),
                _parts(pour.part_a_kg, pour.part_b_kg, words),
            ),
        ],
        "before": _pour_before(pour, plan, words),
        "batches": batch_rows(pour.batches, words, plan),
        "size": weight_size(len(pour.batches)),
        "caution": _pour_caution(pour, words),
        "after": _pour_after(pour, plan, words),
        "blanks": ["started", "finished", "shop temperature", "dip reached"],
    }


def _as_standing(pour: Pour, plan: PlanDocument, words: Wording) -> str:
    reading = both_readings(pour.to_m, pour.to_standing_m, plan, words)
    return f"{words.length(pour.to_standing_m)} as the piece stands" if "(" in reading else ""


def _pour_before(pour: Pour, plan: PlanDocument, words: Wording) -> list[str]:
    lines = ["Go/no-go list done.", *core_lines(plan, words), *insert_lines(plan, words)]
    if pour.number > 1:
        lines = [_on_top(plan.pours[pour.number - 2], plan, words)]
    lines += [
        f"Lay in {words.mass(share.mass_kg)} of {share.colour} glass, {share.grade} (band: {share.band})."
        for share in pour.glass
    ]
    if not pour.glass:
        lines.append(f"This pour fills: {', '.join(pour.bands)}.")
    lines += soak_lines(pour, words)
    lines += too_damp(pour.number, plan)
    if pour.start_temperature_degC is not None:
        lines.append(f"Resin, hardener and glass at {words.temperature(pour.start_temperature_degC)}.")
    return lines


def _on_top(below: Pour, plan: PlanDocument, words: Wording) -> str:
    if wash_first(below.number, plan) is not None:
        wash = "wash it with warm water, dry it, then sand it"
        return f"Pour {below.number} blushes in this air, so its bond is void: {wash} before you pour."
    if below.next_from is None or below.next_until is None or sanded(below.number, plan):
        wash = "wash it with warm water, dry it, sand all of it dull, wipe off the dust"
        return f"Pour {below.number} bonds no more: {wash} before you pour."
    # working hours may end the times before the bond does
    bond_end = words.after(below.start, below.bonds_until_h)
    times = words.window(below.next_from, below.next_until)
    return f"Pour {below.number} takes it {times}; after {words.moment(bond_end)} sand it first."


def _pour_caution(pour: Pour, words: Wording) -> str:
    if pour.work_within_h is None:
        return RESIN_CAUTION
    caution = f"{RESIN_CAUTION} In the mold within {words.duration(pour.work_within_h)} of mixing."
    runs_hot = pour.standing is not None and pour.standing.hot_after_h is not None
    return f"{caution} {SMOKE_CAUTION}" if runs_hot else caution


def _standing(standing: Standing, words: Wording) -> str:
    """How long the batch may stand in its pail, spread out, and warmed first."""
    return " ".join([_in_pail(standing, words), _in_tray(standing, words), _prewarmed(standing, words)])


def _in_pail(standing: Standing, words: Wording) -> str:
    name = f"Left in a pail of {words.volume(standing.pail_m3)} the batch"
    hot = f"can go over {words.temperature(standing.hot_degC)}"
    found = [
        (standing.warm_after_h, f"is {words.difference(standing.warming_K)} warmer"),
        (standing.thick_after_h, "no longer pours"),
        (standing.hot_after_h, hot),
    ]
    told = [f"{what} after {_about(after, words)}" for after, what in found if after is not None]
    watched = words.duration(standing.watched_h)
    return f"{name} {', '.join(told)}." if told else f"{name} stays cool and liquid for {watched}."


def _in_tray(standing: Standing, words: Wording) -> str:
    depth = words.length(standing.tray_depth_m)
    if standing.tray_hot_after_h is None:
        return (
            f"Spread {depth} deep in trays it stays below {words.temperature(standing.tray_peak_degC + 1)}."
        )
    return f"Even {depth} deep in trays it runs hot after {_about(standing.tray_hot_after_h, words)}."


def _prewarmed(standing: Standing, words: Wording) -> str:
    if standing.prewarmed_until_h is None:
        return ""
    warmer, until = words.difference(standing.prewarmed_by_K), _about(standing.prewarmed_until_h, words)
    return f"Mixed {warmer} warmer it has only {until}."


def _about(hours: float, words: Wording) -> str:
    """Short by a little: full minutes, and from half an hour on full five minutes."""
    step = 1.0 if hours < 0.5 else 5.0
    return words.duration(max(floor(hours * 60.0 / step) * step, 1.0) / 60.0)


def _sinking(plan: PlanDocument) -> list[str]:
    """What the open face needs, without the words that name the pour."""
    if plan.cracks is None:
        return []
    text = plan.cracks.tops[-1].text.partition(": ")[2]
    return [f"{text[:1].upper()}{text[1:]}"]


def _left_over(pour: Pour, plan: PlanDocument, words: Wording) -> list[str]:
    """What to do with the share that was mixed on top."""
    spare = plan.fill.resin.allowance_kg * pour.resin_kg / plan.fill.resin_kg if plan.fill.resin_kg else 0.0
    if spare <= 0.0:
        return []
    text = (
        f"About {words.mass(spare)} is allowance and stays over: stop at the level, keep a cup to top up a "
        "leak, let the rest harden in thin layers on a tray, outdoors; never leave it in the pail."
    )
    return [text]


def _pour_after(pour: Pour, plan: PlanDocument, words: Wording) -> list[str]:
    peak = words.after(pour.start, pour.peak_after_h)
    limit = words.temperature(pour.peak_limit_degC)
    lines = [] if pour.standing is None else [_standing(pour.standing, words).strip()]
    lines += [
        f"Hottest about {words.moment(peak)}: {peak_words(pour, words)}, limit {limit}.",
        f"All gelled, to the last corner, {gel_words(pour, words)} after the start.",
    ]
    if pour.next_from is None:
        leaves = "only once warmed" if plan.demold.at is None else f"on {words.moment(plan.demold.at)}"
        leaving = f"Last pour. Out of the mold {leaves}.{core_after(plan)}"
        return [*lines, *_sinking(plan), leaving, *_left_over(pour, plan, words)]
    window = f"Pour the next one {next_words(pour, words)}: from then on nine tenths of the top have gelled."
    if sanded(pour.number, plan):
        window = f"It bonds {next_words(pour, words)}; nobody is there then. Wash and sand it first."
    elif wash_first(pour.number, plan) is not None:
        window += " Its top blushes: wash and sand it first."
    return [*lines, window]
