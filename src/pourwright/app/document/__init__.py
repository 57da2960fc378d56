"""The plan document, put together from what every room answered."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite

from pourwright import __version__
from pourwright.app.alternatives import Change
from pourwright.app.contact import patch_part
from pourwright.app.document.agenda import calendar, demold_at, too_late
from pourwright.app.document.chances import chances_part, opened_soft, what_if_parts, with_bands
from pourwright.app.document.cracks import cracks_part, cracks_warnings
from pourwright.app.document.credits import sources
from pourwright.app.document.hollow import core_part, inserts_part, too_heavy
from pourwright.app.document.kept import kept_ready
from pourwright.app.document.missing import with_reasons
from pourwright.app.document.moments import iso
from pourwright.app.document.notes import cautions, go_no_go, reasons, too_late_warning, warnings
from pourwright.app.document.parts import fill_part, mold_part, piece_part
from pourwright.app.document.pours import demold_part, heat_part, pour_parts
from pourwright.app.document.section import section_part
from pourwright.app.document.shopping import shopping
from pourwright.app.document.size_doubt import ready_words
from pourwright.app.document.sizes import sizes_of
from pourwright.app.document.soaking import soak_reason, soak_warnings
from pourwright.app.document.soft import soft_part, soft_warnings, with_washing
from pourwright.app.insert_part import insert_cautions, insert_warnings
from pourwright.app.master_timing import contact_in
from pourwright.app.setup import DAYS, Setup, tools, working_hours
from pourwright.app.timing import Beginning
from pourwright.fill import dip_stick
from pourwright.foundation.notation import UnitSystem
from pourwright.jobs import plan
from pourwright.jobs.job import Job
from pourwright.planner.decide import Decision
from pourwright.planner.request import Request

DIP_STEP = {UnitSystem.METRIC: 0.010, UnitSystem.US: 0.0127}


def job_info(job: Job) -> plan.JobInfo:
    """Say which job and variant this is, and when somebody is in the shop."""
    hours = working_hours(job)
    return plan.JobInfo(
        title=job.title,
        variant=job.variant_name,
        units=job.units,
        paper=job.paper_size,
        time_zone=job.shop.time_zone,
        currency="" if job.prices is None else job.prices.currency,
        invented=job.invented,
        scale_step_kg=tools(job).scale_step,
        opens=f"{hours.opens:%H:%M}",
        closes=f"{hours.closes:%H:%M}",
        working_days=[DAYS[day] for day in sorted(hours.weekdays)],
        days_off=[day.isoformat() for day in sorted(hours.days_off)],
    )


def plan_document(
    setup: Setup,
    request: Request,
    decision: Decision,
    beginning: Beginning,
    changes: Sequence[Change] = (),
    *,
    laid: float = 0.0,
) -> plan.PlanDocument:
    """Put the plan together.

    Parameters
    ----------
    setup : Setup
        Mold and fill.
    request : Request
        What the planner was asked.
    decision : Decision
        What it decided.
    beginning : Beginning
        Its moment is the only time stamp in the document.
    changes : sequence of Change
        What was looked at besides, in the order of the decision's looks.
    laid : float
        Up to here glass lies in the mold already [m].

    Returns
    -------
    PlanDocument
        Everything a reader needs.
    """
    climate, limit = request.site.climate, request.peak_limit
    ready = kept_ready(decision)
    opening = demold_at(setup, climate.moment(ready)) if isfinite(ready) else None
    pours = with_bands(pour_parts(setup, decision, request.site, limit, laid), decision)
    events = calendar(setup, pours, opening, beginning)
    soft = soft_part(setup, request, decision, opening)
    cracks = cracks_part(setup, request.site, decision, None if soft is None else soft.warm_box)
    opened = None if opening is None else climate.seconds(opening)
    chances = chances_part(setup, decision, opened)
    late = events[0] if too_late(events, beginning) else None
    document = plan.PlanDocument(
        version=__version__,
        seed=setup.job.seed,
        computed_for=iso(beginning.now),
        inputs=dict(setup.piece.inputs),
        job=job_info(setup.job),
        piece=piece_part(setup.piece, setup.piece_mass, setup.resin.id, setup.materials, setup.hollow),
        sizes=sizes_of(setup.piece, setup.job, setup.resin, decision.final.cracks),
        mold=mold_part(setup.mold, setup.in_mold, patch_part(contact_in(setup), beginning.now.date())),
        hollow=core_part(setup),
        inserts=inserts_part(setup),
        fill=fill_part(setup),
        pours=pours,
        demold=demold_part(setup, decision, None if opening is None else iso(opening)),
        heat=heat_part(setup, decision, climate),
        cracks=cracks,
        soft=soft,
        chances=chances,
        what_if=what_if_parts(setup, decision, changes),
        dip_stick=_dip_stick(setup, pours),
        section=section_part(setup),
        shopping=shopping(setup, pours),
        calendar=with_washing(events, soft),
        go_no_go=go_no_go(setup),
        reasons=[*reasons(setup, decision, beginning, climate), *soak_reason(pours)],
        cautions=[*insert_cautions(setup.inserts), *cautions(setup)],
        warnings=[
            *too_late_warning(setup, late, beginning),
            *too_heavy(setup),
            *insert_warnings(setup.inserts, setup.system),
            *setup.piece.told,
            *ready_words(setup.piece, setup.job),
            *warnings(setup, decision, climate, limit),
            *soak_warnings(pours),
            *cracks_warnings(cracks),
            *soft_warnings(soft),
            *opened_soft(chances),
        ],
        sources=sources(setup),
    )
    return with_reasons(document)


def _dip_stick(setup: Setup, pours: list[plan.Pour]) -> list[plan.DipRow]:
    rows = dip_stick(
        setup.fill,
        setup.mold.rim,
        setup.piece.frame.as_standing,
        DIP_STEP[setup.system],
        [pour.to_m for pour in pours],
    )
    return [
        plan.DipRow(
            height_m=row.height,
            height_standing_m=row.height_standing,
            dip_m=row.dip,
            cavity_m3=row.cavity,
            liquid_m3=row.liquid,
        )
        for row in rows
    ]
