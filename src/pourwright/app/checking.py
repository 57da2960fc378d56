"""Check a job in seconds: is the shape castable, what is missing, the cheap answers."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

from pourwright.app.castable import Finding, castable
from pourwright.app.cold import cold_words
from pourwright.app.contact import contact_of
from pourwright.app.contact_findings import contact_findings
from pourwright.app.defaults import DEFAULTS
from pourwright.app.document import job_info
from pourwright.app.document.hollow import core_part, too_heavy
from pourwright.app.document.notes import general_cautions
from pourwright.app.document.parts import fill_part, mold_part, piece_part
from pourwright.app.document.size_doubt import ready_words
from pourwright.app.document.sizes import sizes_of
from pourwright.app.hollow_limit import limit_words
from pourwright.app.hollow_part import hollow_part
from pourwright.app.insert_part import insert_warnings
from pourwright.app.jamming import jammed
from pourwright.app.learnt.in_force import shop_materials
from pourwright.app.mineral_mix import mineral_mix
from pourwright.app.molding.hollow import poured_in
from pourwright.app.molding.look import MoldLook, look_at_mold
from pourwright.app.setup import Setup, set_up
from pourwright.app.shaping.piece import PieceRead, read_piece
from pourwright.app.thin_findings import thin_findings
from pourwright.app.way_findings import way_findings
from pourwright.app.which import chosen_variants
from pourwright.fill import MineralMix
from pourwright.foundation.notation import (
    UnitSystem,
    format_length,
    format_mass,
    format_share,
    format_temperature,
    format_volume,
)
from pourwright.foundation.progress import SILENT, Progress
from pourwright.geometry import undercut
from pourwright.jobs import load_job, plan, plan_sizes
from pourwright.jobs.job import Job
from pourwright.jobs.plan_hollow import Hollow
from pourwright.materials import Materials
from pourwright.materials.records import Rubber
from pourwright.mold import lifting_caution


@dataclass(frozen=True)
class CheckReport:
    """The cheap answers about one job.

    Parameters
    ----------
    job, piece, fill, mold, sizes
        Parts of the plan document; a piece mixed with water has no fill.
    findings : tuple of Finding
        In order of the work.
    """

    job: plan.JobInfo
    piece: plan.Piece
    fill: plan.Fill | None
    mold: plan.Mold | None
    findings: tuple[Finding, ...]
    sizes: plan_sizes.Sizes | None = None
    hollow: Hollow | None = None

    def to_json(self) -> dict[str, Any]:
        """The report as JSON."""
        parts = {name: getattr(self, name) for name in ("job", "piece", "sizes", "hollow", "fill", "mold")}
        content = {
            name: None if part is None else part.model_dump(mode="json") for name, part in parts.items()
        }
        return content | {"findings": [{"level": found.level, "text": found.line} for found in self.findings]}


def check_job(path: Path, progress: Progress = SILENT, variant: str | None = None) -> CheckReport:
    """Check a job without any heat run.

    Parameters
    ----------
    path : Path
        Job file.
    progress : Progress
        Told what is done.
    variant : str, optional
        The variant to look at; else the first.

    Returns
    -------
    CheckReport
        Of one variant; all of them are read, and what is not looked at is said.

    Raises
    ------
    UserError
        For a job file or shape that cannot be used.
    """
    job, *others = chosen_variants(load_job(path), variant)
    skipped = tuple(_skipped(others))
    progress.step("reading the shape", 0, 2)
    piece = read_piece(job)
    progress.step("mold and fill", 1, 2)
    materials = shop_materials(job)
    if job.casting.material in materials.mineral:
        return _mixed_with_water(job, piece, materials, skipped)
    setup = set_up(job, piece)
    progress.step("mold and fill", 2, 2)
    return CheckReport(
        job_info(job),
        piece_part(piece, setup.piece_mass, setup.resin.id, setup.materials, setup.hollow),
        fill_part(setup),
        mold_part(setup.mold, setup.in_mold),
        (*_findings(setup), *skipped),
        sizes_of(piece, job),
        core_part(setup),
    )


def _skipped(others: Sequence[Job]) -> Iterator[Finding]:
    if others:
        names = ", ".join(one.variant_name for one in others)
        yield Finding("mind", f"not looked at: variant {names}", "check each with --variant NAME")


def _mixed_with_water(
    job: Job, piece: PieceRead, materials: Materials, skipped: tuple[Finding, ...]
) -> CheckReport:
    """Powder, water and mold of a piece for which no pours are planned."""
    mineral, look = materials.mineral[job.casting.material], look_at_mold(job, piece)
    mix = mineral_mix(job, materials, mineral, look.room_solid.volume)
    wet = mix.wet_mass + look.core_mass
    findings = (*(found for _, found in mineral_findings(look, mix)), *skipped)
    core = None if look.hollow is None else hollow_part(look.hollow, poured_in(look), look.fill_mass)
    part = piece_part(piece, look.fill_mass, mineral.id, materials, look.hollow)
    made = mold_part(look.mold, wet)
    return CheckReport(job_info(job), part, None, made, findings, sizes_of(piece, job), core)


def mineral_findings(look: MoldLook, mix: MineralMix) -> Iterator[tuple[str, Finding]]:
    """Look at a piece for which no pours are planned.

    Parameters
    ----------
    look : MoldLook
        Its mold.
    mix : MineralMix
        Powder and water.

    Yields
    ------
    str
        Step of the work.
    Finding
        What was found.
    """
    job, piece, materials = look.job, look.piece, look.materials
    extra = f"{format_share(mix.mixed / mix.wet_mass - 1)} on top in it"
    full = look.mold.filled_mass(mix.wet_mass + look.core_mass)
    heavy = lifting_caution("The filled mold", full, look.system)
    shape = [*piece.told, *ready_words(piece, job)]
    parts: tuple[tuple[str, Iterable[Finding]], ...] = (
        ("piece", [Finding("ok", "the shape is one closed body")]),
        ("piece", [Finding("ok", text) for text in piece.noted]),
        ("piece", _minded(shape)),
        ("piece", way_findings(job, piece, materials)),
        ("piece", thin_findings(piece, UnitSystem(job.units))),
        ("mold", contact_findings(contact_of(job, _rubber(job, materials)), _today())),
        ("fill", [Finding("ok", f"{look.casting.name}: mix {_mixed(mix, look.system)}, {extra}")]),
        ("piece", _minded(_too_heavy(look))),
        ("fill", _minded(mix.warnings)),
        ("mold", _minded((*look.mold.warnings, *([heavy] if heavy else [])))),
    )
    return ((name, found) for name, each in parts for found in each)


def _mixed(mix: MineralMix, system: UnitSystem) -> str:
    powder, water, glass = (format_mass(mass, system) for mass in (mix.powder, mix.water, mix.aggregate))
    return f"{powder} of powder with {water} of water" + (f" and {glass} of glass" if mix.aggregate else "")


def _too_heavy(look: MoldLook) -> Iterator[str]:
    told = limit_words(look.piece.mesh, poured_in(look), look.fill_mass)
    if told:
        yield told


Look = Callable[[Setup], Iterator[Finding]]
"""One thing that is looked at."""


def _findings(setup: Setup) -> Iterator[Finding]:
    for _, look in LOOKS:
        yield from look(setup)


def _shape(setup: Setup) -> Iterator[Finding]:
    yield Finding("ok", "the shape is one closed body")
    for text in setup.piece.noted:
        yield Finding("ok", text)
    for text in (*setup.piece.told, *ready_words(setup.piece, setup.job)):
        yield Finding("mind", text)
    yield from castable(setup.job, setup.piece)


def jam_findings(setup: Setup) -> Iterator[Finding]:
    """Say which glass does not get down into its band; of a fine mesh it takes seconds."""
    for error in jammed(setup):
        yield Finding("stop", error.what, error.todo)


def _thin(setup: Setup) -> Iterator[Finding]:
    return thin_findings(setup.piece, setup.system, setup)


def _ways(setup: Setup) -> Iterator[Finding]:
    return way_findings(setup.job, setup.piece, setup.materials)


def _contact(setup: Setup) -> Iterator[Finding]:
    return contact_findings(contact_of(setup.job, setup.mold.choices.rubber), _today())


def _weight(setup: Setup) -> Iterator[Finding]:
    return _minded(too_heavy(setup))


def _inserts(setup: Setup) -> Iterator[Finding]:
    return _minded(insert_warnings(setup.inserts, setup.system))


def _mold(setup: Setup) -> Iterator[Finding]:
    return _minded(setup.mold.warnings)


def _fill(setup: Setup) -> Iterator[Finding]:
    return _minded(setup.fill.warnings)


def _lifted(setup: Setup) -> Iterator[Finding]:
    heavy = lifting_caution("The filled mold", setup.mold.filled_mass(setup.in_mold), setup.system)
    return _minded([heavy] if heavy else [])


def _minded(texts: Iterable[str]) -> Iterator[Finding]:
    return (Finding("mind", text) for text in texts)


def _start(setup: Setup) -> Iterator[Finding]:
    if setup.job.start is None:
        yield Finding(
            "mind",
            "no start in the job: the work begins at the next working hour, the pours once the mold is ready",
        )


def _prices(setup: Setup) -> Iterator[Finding]:
    if setup.job.prices is None:
        yield Finding("mind", "no [prices]: the shopping list will have no money")


def _always(_setup: Setup) -> Iterator[Finding]:
    yield Finding("mind", general_cautions()[0])


def _around_core(setup: Setup) -> Iterator[Finding]:
    if setup.hollow is not None:
        wall = format_length(setup.hollow.body.wall, setup.system)
        yield Finding("ok", f"the core leaves {wall} everywhere; thin and sharp are told of the outside")


def _rubber(job: Job, materials: Materials) -> Rubber:
    found: Rubber = materials.find("rubber", job.mold.rubber, job.where("mold.rubber"))
    return found


def _today() -> date:
    return datetime.now(UTC).date()


def _way_out(setup: Setup) -> Iterator[Finding]:
    found = undercut(setup.piece.mesh, "+z")
    if max(found.blocked_share, found.parted_share) < DEFAULTS["hidden_share"].value:
        yield Finding("ok", "nothing holds the piece in the rubber when it is pulled straight up")
        return
    yield Finding(
        "mind",
        f"undercut: rubber lies over {format_share(found.blocked_share)} of the faces that look up; it "
        "must be cut open, or stretch over them",
    )


def _pinned(setup: Setup) -> Iterator[Finding]:
    pin = setup.job.pin
    if pin is not None:
        tables = ", ".join(name for name, value in pin if value) or "nothing yet"
        yield Finding(
            "mind",
            f"[pin] pins values for a check of the heat run ({tables}): read by pourwright heat alone",
            "pourwright plan refuses the job until they are out",
        )


def _shop(setup: Setup) -> Iterator[Finding]:
    shop = setup.job.shop
    given = [value.si for value in (shop.temperature, shop.day_temperature, shop.night_temperature) if value]
    for text in cold_words(min(given), setup.system):
        yield Finding("mind", text)
    for value in sorted({min(given), max(given)}):
        text = format_temperature(value, setup.system)
        if value < DEFAULTS["cool_shop"].value:
            yield Finding("mind", f"{text} in the shop is cool: slow cure, blush, soft thin parts")
        elif value > DEFAULTS["warm_shop"].value:
            yield Finding("mind", f"{text} in the shop is warm: shorter pot life, hotter pours")
    volume = format_volume(setup.room_solid.volume, UnitSystem(setup.job.units))
    yield Finding(
        "ok", f"{volume} of cavity; the heat of the pours comes with: pourwright plan {setup.job.path}"
    )


LOOKS: tuple[tuple[str, Look], ...] = (
    ("piece", _shape),
    ("fill", jam_findings),
    ("piece", _ways),
    ("piece", _thin),
    ("mold", _contact),
    ("piece", _around_core),
    ("mold", _way_out),
    ("pour", _shop),
    ("pour", _pinned),
    ("piece", _weight),
    ("mold", _inserts),
    ("mold", _mold),
    ("fill", _fill),
    ("mold", _lifted),
    ("pour", _start),
    ("paper", _prices),
    ("pour", _always),
)
"""All that is looked at in a piece cast from resin, by the step of the work it belongs to."""
