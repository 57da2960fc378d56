"""Which sources a heat run used, and what the job file itself has pinned."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator

from pourwright.app.document.credits import MODELS
from pourwright.app.setup import Setup
from pourwright.foundation.sources import Sourced, load_sources
from pourwright.jobs.plan import SourceUsed
from pourwright.pour.defaults import DEFAULTS as POUR
from pourwright.pour.site import Site

THERMAL = ("density", "heat_capacity", "conductivity")
CURE_MODELS = ("kamal-sourour-1973",)
GLASSY_MODELS = ("dibenedetto-1987", "chern-poehlein-1987")
AIR_MODELS = ("churchill-chu-1975", "mcadams-1954", "incropera-dewitt", "us-standard-atmosphere-1976")


def heat_sources(setup: Setup, stands: Site) -> list[SourceUsed]:
    """List what a heat run was made from.

    Parameters
    ----------
    setup : Setup
        With the records as they are.
    stands : Site
        With everything that is pinned.

    Returns
    -------
    list of SourceUsed
        The job file first, where it pins numbers.
    """
    known = load_sources()
    used: dict[tuple[str, str], list[str]] = {}
    pinned: list[str] = []
    own = {id(number) for _, number in _of(setup.resin)}
    for name, number in _numbers(stands):
        if name.startswith("resin ") and id(number) not in own:
            pinned.append(name)
        else:
            used.setdefault((number.source, str(number.kind)), []).append(name)
    for source in _models(stands):
        used.setdefault((source, "published"), []).append(MODELS[source])
    listed = [
        SourceUsed(id=source, citation=known[source].printed, kind=kind, used_for=", ".join(names))
        for (source, kind), names in sorted(used.items())
    ]
    if not pinned:
        return listed
    line = SourceUsed(
        id="job-file",
        citation=f"the job file, {setup.job.path.name}",
        kind="pinned",
        used_for=", ".join(pinned),
    )
    return [line, *listed]


def _numbers(stands: Site) -> Iterator[tuple[str, Sourced]]:
    for name in (*THERMAL, "heat_of_reaction"):
        yield f"resin {name}".replace("_", " "), getattr(stands.resin, name)
    for item in dataclasses.fields(stands.resin.cure):
        yield f"resin {item.name}".replace("_", " "), getattr(stands.resin.cure, item.name)
    shells = () if stands.bare else ((stands.rubber, "rubber"), (stands.board, "board"))
    glass = ((stands.glass, "glass"),) if _filled(stands) else ()
    for record, title in (*shells, *glass):
        for name in THERMAL:
            yield f"{title} {name}".replace("_", " "), getattr(record, name)
    if stands.film is None:
        yield "open emissivity", POUR["open_emissivity"]


def _of(record: object) -> Iterator[tuple[str, Sourced]]:
    for item in dataclasses.fields(record):  # type: ignore[arg-type]
        value = getattr(record, item.name)
        if isinstance(value, Sourced):
            yield item.name, value
        elif dataclasses.is_dataclass(value):
            yield from _of(value)


def _filled(stands: Site) -> bool:
    return any(bed.solid_fraction > 0.0 for bed in stands.beds)


def _models(stands: Site) -> tuple[str, ...]:
    glassy = GLASSY_MODELS if stands.resin.cure.diffusion_width.value > 0.0 else ()
    filled = ("bruggeman-1935",) if _filled(stands) else ()
    return (*CURE_MODELS, *glassy, *filled, *(AIR_MODELS if stands.film is None else ()))
