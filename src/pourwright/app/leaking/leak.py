"""Reckon a leak: the plan on disk, what was weighed and read, and the answer."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from pourwright import __version__
from pourwright.app.booking.went_in import pail_loss
from pourwright.app.document.credits import listed
from pourwright.app.leaking.of_plan import (
    Leaking,
    allowance,
    begun_at,
    chosen_pour,
    leaking,
    planned_mass,
    rim,
)
from pourwright.app.leaking.readings import Readings, refuse_heights, refuse_masses, refuse_times
from pourwright.app.leaking.rescue import Bond, Window, bond_of, way_of, windows
from pourwright.app.leaking.words import WAYS, LeakWords
from pourwright.app.plan_files import PLAN_FILE
from pourwright.app.plan_folder import plan_place
from pourwright.app.setup import casting_resin, working_hours
from pourwright.app.shop import shop_folder
from pourwright.app.which import as_loaded, chosen_variants
from pourwright.foundation.errors import NotThereError, UserError
from pourwright.jobs import load_plan
from pourwright.jobs.hashes import input_hashes
from pourwright.jobs.job import Job
from pourwright.jobs.leak import (
    LeakAtGel,
    LeakClash,
    LeakDocument,
    LeakEvidence,
    LeakHeat,
    LeakLevel,
    LeakMass,
    LeakRunning,
    LeakTopUp,
    LeakWindow,
)
from pourwright.jobs.plan import Batch, PlanDocument
from pourwright.materials import load_materials
from pourwright.materials.batches import split_batches
from pourwright.planner.hours import WorkingHours
from pourwright.pour.leaked.defaults import LEAKED
from pourwright.pour.leaked.filling import level_of
from pourwright.pour.leaked.law import falling
from pourwright.pour.leaked.lost import Lost, lost
from pourwright.pour.leaked.running import Running, running
from pourwright.pour.leaked.top_up import AtGel, at_gel, top_up
from pourwright.sheets import plan_mark

MODELS = {
    "plane-poiseuille": "how fast it runs out under the head that is left",
    "castro-macosko-1982": "how resin thickens as it cures",
}
OTHER_PLAN = "the job has been changed since this plan was made: the leak is reckoned by the plan"
NOT_WEIGHED = "nothing was weighed: what went in is taken as planned, give or take 3 %"
PARTLY_WEIGHED = "some batches were entered as planned and not weighed: they are taken so, give or take 3 %"


@dataclass(frozen=True)
class LeakReport:
    """The answer.

    Parameters
    ----------
    document : LeakDocument
        All of it.
    """

    document: LeakDocument

    def to_json(self) -> dict[str, Any]:
        """The document, ready for JSON."""
        return self.document.model_dump(mode="json", by_alias=True)


@dataclass(frozen=True)
class Reckoned:
    """Everything that was reckoned of a leak, before it is written."""

    leak: Leaking
    now: float
    out: Lost
    runs: Running
    gel: AtGel
    bond: Bond


def leak_job(
    path: Path | Job, readings: Readings, variant: str | None = None, now: datetime | None = None
) -> LeakReport:
    """Reckon a leak by the plan on disk.

    Parameters
    ----------
    path : Path or Job
        Job file, or the job as it was read.
    readings : Readings
        What was weighed and read.
    variant : str, optional
        Which; else the first.
    now : datetime, optional
        Aware; the clock where left out.

    Returns
    -------
    LeakReport

    Raises
    ------
    UserError
        Where there is no plan, or a reading cannot be.
    """
    job = as_loaded(path)
    one = chosen_variants(job, variant)[0]
    plan = plan_on_disk(job, one)
    moment = now or datetime.now(UTC)
    return LeakReport(written(one, reckon(one, plan, readings, moment), readings, moment))


def plan_on_disk(job: Job, one: Job) -> PlanDocument:
    """The plan that was poured by."""
    file = plan_place(job, one) / PLAN_FILE
    if not file.is_file():
        raise NotThereError("this job has no plan", where=str(job.path.parent), todo="make the plan first")
    return load_plan(file)


def reckon(job: Job, plan: PlanDocument, readings: Readings, now: datetime) -> Reckoned:
    """Reckon a leak, before it is put into words."""
    pour = chosen_pour(plan, readings.pour, now)
    begun = begun_at(pour, readings)
    refuse_masses(readings)
    refuse_times(readings, begun, now)
    refuse_heights(readings, pour.from_m, rim(plan))
    resin = casting_resin(job, load_materials(shop_folder(job)))
    leak = leaking(plan, pour, resin, readings)
    if not readings.seen and readings.caught is None:
        raise UserError(
            "no level was read and nothing was found beside the mold",
            where="level",
            allowed="a level, a dip, that none can be read below the glass, or a mass that was found",
            todo="read the level at one place, away from the glass",
        )
    case, after = leak.case, leak.after(now)
    fall = falling(
        case.column.heights, case.column.volumes(), pour.from_m if readings.hole is None else readings.hole
    )
    out = lost(case)
    runs = running(case, out, fall, leak.thickens, after, readings.drips)
    gel = at_gel(case, out, runs, fall, leak.thickens, after)
    return Reckoned(leak, after, out, runs, gel, bond_of(leak))


def written(job: Job, found: Reckoned, readings: Readings, now: datetime) -> LeakDocument:
    """Write the document."""
    hours, today = working_hours(job), found.leak.plan.inputs == input_hashes(job)
    leak, words = found.leak, LeakWords(found.leak)
    plan, pour = leak.plan, leak.pour
    top = _top_up(found, hours, words)
    running_words, mixing = words.running(found.runs), words.mix(top)
    told = [
        words.in_mold(found.out),
        running_words,
        words.at_gel(found.gel, found.bond, found.runs.state),
        WAYS[top.way],
    ]
    told += [] if top.way == "nothing" else [mixing, *(each.words for each in top.windows)]
    return LeakDocument(
        version=__version__,
        computed_for=now.isoformat(),
        plan=plan_mark(plan),
        plan_is_of_today=today,
        job=plan.job,
        pour=pour.number,
        begun=leak.begun.isoformat(),
        from_m=pour.from_m,
        to_m=pour.to_m,
        evidence=_evidence(found, words),
        clashes=[
            LeakClash(kind=each.kind, standard_deviations=each.apart, words=words.clash(each))
            for each in found.out.contradictions
        ],
        mass=_mass(found),
        level_now=_level_now(found),
        running=_running(found, running_words),
        at_gel=_at_gel(found),
        top_up=top,
        bands=list(words.bands(found.gel, top.way)),
        heat=_bound(found),
        words=told,
        warnings=_warnings(found, readings, plan_is_of_today=today),
        sources=listed([(name.replace("_", " "), number) for name, number in LEAKED.items()], MODELS),
    )


def _evidence(found: Reckoned, words: LeakWords) -> list[LeakEvidence]:
    leak, say = found.leak, words.say
    mass = leak.case.poured
    told = f"Poured: {say.mass(mass.mass)}, good to {say.mass(mass.doubt)}."
    first = LeakEvidence(kind="poured", mass_kg=mass.mass, doubt_kg=mass.doubt, words=told)
    rest = [
        LeakEvidence(
            kind=each.kind,
            mass_kg=leak.case.caught.mass if each.kind == "caught" and leak.case.caught else None,
            says_out_kg=each.value,
            doubt_kg=each.doubt,
            weight=each.weight,
            words=words.evidence(each),
        )
        for each in found.out.estimates
    ]
    levels = [
        LeakEvidence(
            kind="at most" if each.at_most else "level",
            at=leak.moment(each.time).isoformat(),
            level_m=each.height,
            words=f"{words.at(each.time)}: {'not above ' if each.at_most else ''}{words.height(each.height)}",
        )
        for each in leak.case.levels
    ]
    return [first, *levels, *rest]


def _mass(found: Reckoned) -> LeakMass:
    leak, out = found.leak, found.out
    poured, density = leak.case.poured.mass, leak.case.density
    return LeakMass(
        poured_kg=poured, in_mold_kg=poured - out.likely, in_mold_kg_p10=poured - out.high,
        in_mold_kg_p90=poured - out.low, in_mold_m3=(poured - out.likely) / density, out_kg=out.likely,
        out_kg_p10=out.low, out_kg_p90=out.high, out_m3=out.likely / density,
        planned_kg=planned_mass(leak.plan, leak.pour),
    )  # fmt: skip


def _level(found: Reckoned, level: float, low: float, high: float) -> LeakLevel:
    plan = found.leak.plan
    standing = plan.piece.height_m - level if plan.piece.flipped else level
    return LeakLevel(
        level_m=level, level_m_p10=low, level_m_p90=high, standing_m=standing, dip_m=rim(plan) - level
    )


def _level_now(found: Reckoned) -> LeakLevel:
    case, out = found.leak.case, found.out
    masses = [case.poured.mass - gone for gone in (out.likely, out.high, out.low)]
    return _level(found, *(float(level) for level in level_of(case, masses, case.latest or found.now)))


def _running(found: Reckoned, told: str) -> LeakRunning:
    runs, leak = found.runs, found.leak
    again = None if runs.look_again is None else leak.moment(found.now + runs.look_again).isoformat()
    return LeakRunning(
        state=runs.state, fell_m=runs.fell, noise_m=runs.noise, rate_kg_h=3600.0 * runs.rate, words=told,
        between_h=None if runs.between is None else runs.between / 3600.0, look_again=again,
    )  # fmt: skip


def _at_gel(found: Reckoned) -> LeakAtGel:
    gel = found.gel
    return LeakAtGel(
        at=found.leak.moment(found.bond.gel).isoformat(),
        level=_level(found, gel.level, gel.low, gel.high),
        out_kg=gel.out,
        if_stopped_m=gel.if_stopped,
    )


def _top_up(found: Reckoned, hours: WorkingHours, words: LeakWords) -> LeakTopUp:
    leak, gel = found.leak, found.gel
    need = top_up(leak.case, gel, leak.pour.to_m, pail_loss(leak.plan).mass, allowance(leak.plan))
    way = way_of(leak, found.runs, gel, need, found.bond, found.now)
    made = _batches(leak, 0.0 if way == "nothing" else need.mixed)
    return LeakTopUp(
        way=way, level_m=gel.level, up_to_m=leak.pour.to_m, missing_kg=need.missing, missing_kg_p10=need.low,
        missing_kg_p90=need.high, mix_kg=sum(batch.mass_kg for batch in made),
        part_a_kg=sum(batch.part_a_kg for batch in made), part_b_kg=sum(batch.part_b_kg for batch in made),
        batches=made, words=WAYS[way],
        windows=[_window(found, each, words) for each in windows(leak, way, found.bond, hours, found.now)],
    )  # fmt: skip


def _batches(leak: Leaking, mass: float) -> list[Batch]:
    """No larger than the plan's own batches, which keep cool in their pail."""
    plan = leak.plan
    parts = plan.fill.parts_by_weight or (1.0, 1.0)
    largest = max(batch.mass_kg for pour in plan.pours for batch in pour.batches)
    made = split_batches(mass, parts, largest, plan.job.scale_step_kg or 0.001)
    return [
        Batch(
            number=one.number, mass_kg=one.mass, part_a_kg=one.part_a, part_b_kg=one.part_b,
            ratio_error=one.ratio_error,
        )
        for one in made
    ]  # fmt: skip


def _window(found: Reckoned, window: Window, words: LeakWords) -> LeakWindow:
    leak = found.leak
    begins, ends = words.at(window.begins), None
    span = f"from {begins} on"
    if window.until < float("inf"):
        ends = leak.moment(window.until).isoformat()
        span = f"{begins} to {words.at(window.until)}"
    there = "by your hours nobody is there in that time: come in for it" if window.open_at is None else ""
    if window.open_at is not None:
        there = f"somebody is there {words.say.moment(window.open_at.isoformat())}"
    name = {
        "now": "While it is liquid, once nothing runs any more",
        "bond": "While its gelled top bonds",
        "sand": "Washed and sanded",
        "glass out": "Loose glass out, washed and sanded",
    }[window.way]
    return LeakWindow(
        way=window.way, begins=leak.moment(window.begins).isoformat(), ends=ends,
        open_at=None if window.open_at is None else window.open_at.isoformat(),
        words=f"{name}: {span}; {there}.",
    )  # fmt: skip


def _bound(found: Reckoned) -> LeakHeat:
    pour, say = found.leak.pour, LeakWords(found.leak).say
    planned = found.leak.case.poured.mass <= 1.05 * planned_mass(found.leak.plan, pour)
    limit = say.temperature(pour.peak_limit_degC)
    if not planned:
        told = "More was poured than planned: how hot it gets is not known without a heat run (--heat)."
        return LeakHeat(kind="bound", peak_degC=None, limit_degC=pour.peak_limit_degC, words=told)
    told = (
        f"No hotter than the pour as planned, {say.temperature(pour.peak_temperature_degC)} of {limit}: the "
        "same depth with the same resin, given in two parts, the first of which has spent some of its heat."
    )
    return LeakHeat(
        kind="bound", peak_degC=pour.peak_temperature_degC, limit_degC=pour.peak_limit_degC, words=told
    )


def _warnings(found: Reckoned, readings: Readings, *, plan_is_of_today: bool) -> list[str]:
    told = [] if plan_is_of_today else [OTHER_PLAN]
    if not readings.poured and not readings.mixed:
        told.append(NOT_WEIGHED)
    elif readings.planned:
        told.append(PARTLY_WEIGHED)
    if readings.hole is None and found.runs.state in ("runs", "cannot tell"):
        told.append(
            "the hole is taken at the floor of this pour, where most gets out; say where it is with --hole"
        )
    return told
