"""From the pinned values of a job to what the heat run takes, in SI."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from pourwright.app.memory import count_cells, refuse_without_room
from pourwright.app.setup import Setup, site
from pourwright.foundation.errors import UserError
from pourwright.foundation.notation import UnitSystem, format_length
from pourwright.foundation.quantities import Quantity
from pourwright.foundation.sources import Sourced
from pourwright.geometry import Grid, cell_fractions
from pourwright.jobs.job import Job
from pourwright.jobs.pin import Pin, PinKinetics
from pourwright.materials import CureLaw, Resin
from pourwright.physics.cure_kernels import scalar_rate
from pourwright.pour.cycle import Cycle
from pourwright.pour.pinned_run import PinnedPour
from pourwright.pour.probes import Probe
from pourwright.pour.site import Bed, Block, Site, cure_law

SPACING, LAYERS, TOLERANCE = 0.008, 6, 0.05
USUAL_CELLS, COARSER = 300_000, 1.1
NEAR, NEARLY_ALL = 1e-6, 0.999
_FIELDS = {
    "a1": "frequency_1",
    "e1": "activation_energy_1",
    "a2": "frequency_2",
    "e2": "activation_energy_2",
    "m": "order_m",
    "n": "order_n",
}


@dataclass(frozen=True)
class Pinned:
    """A heat run ready to be laid out.

    Parameters
    ----------
    site : Site
        What stands on the bench, with everything that is pinned.
    spacing, across : float
        Widest cell along z, and along x and y [m].
    tolerance : float
        Error of stepping in time aimed for [K].
    pours : tuple of PinnedPour
        At least one.
    probes : tuple of Probe
        Places in the casting.
    until : float or None
        End of the run [s].
    stops : tuple of float
        Corners of the surroundings' temperature [s].
    notes : tuple of str
        What was assumed, for whoever reads the answer.
    """

    site: Site
    spacing: float
    across: float
    tolerance: float
    pours: tuple[PinnedPour, ...]
    probes: tuple[Probe, ...]
    until: float | None
    stops: tuple[float, ...]
    notes: tuple[str, ...]


def refuse_pinned(job: Job) -> None:
    """Keep pinned values out of a plan that somebody pours from.

    Parameters
    ----------
    job : Job
        One variant.

    Raises
    ------
    UserError
        Where it has [pin].
    """
    if job.pin is not None:
        raise UserError(
            "values are pinned for a check of the heat run, and a plan must not be made from them",
            where=job.where("pin"),
            todo=f"run: pourwright heat {job.path}; or move [pin] into a variant of its own, or take it out",
        )


def pin_down(setup: Setup, zero: datetime) -> Pinned:
    """Take the pinned values of a job, and the job's own for the rest.

    Parameters
    ----------
    setup : Setup
        A job with or without [pin].
    zero : datetime
        Time 0.

    Returns
    -------
    Pinned
        Ready to be laid out.

    Raises
    ------
    UserError
        For values that do not fit the piece or this computer, with their line.
    """
    pin = setup.job.pin or Pin()
    stands = _stands(setup, pin, zero)
    spacing, across = _grid(setup, pin, stands)
    pours = _pours(setup, pin)
    where = setup.job.where(("pin", "grid", "across" if across < spacing else "spacing"))
    refuse_without_room(stands, spacing, across, tuple(pour.level for pour in pours), where=where)
    _refuse_without_a_start(setup.job, stands, pours)
    tolerance = None if pin.grid is None else pin.grid.tolerance
    return Pinned(
        stands,
        spacing,
        across,
        TOLERANCE if tolerance is None else tolerance.si,
        pours,
        tuple(_probes(setup, pin)),
        None if pin.until is None else pin.until.si,
        () if pin.surroundings is None else tuple(time.si for time in pin.surroundings.times),
        tuple(_notes(pin, stands)),
    )


def _stands(setup: Setup, pin: Pin, zero: datetime) -> Site:
    own = site(setup, zero)
    resin = pinned_resin(setup.resin, pin)
    stands = replace(own, resin=resin, film=None if pin.film is None else pin.film.h.si)
    if pin.matter is not None:
        stands = replace(stands, beds=(Bed(0.0, own.block.height, 0.0),))
    if pin.mold is not None and not pin.mold.around:
        width, depth, _ = setup.piece.size
        stands = replace(stands, block=Block((width, depth), 0.0, 0.0, own.block.height), bare=True)
    if pin.surroundings is not None:
        times = tuple(time.si for time in pin.surroundings.times)
        heat = tuple(value.si for value in pin.surroundings.temperatures)
        stands = replace(stands, climate=Cycle(own.climate.zero, own.climate.zone, (), times, heat))
    return stands


def pinned_resin(resin: Resin, pin: Pin) -> Resin:
    """Put pinned numbers in the place of the resin's own.

    Parameters
    ----------
    resin : Resin
        The casting material.
    pin : Pin
        Pinned values.

    Returns
    -------
    Resin
        Numbers that are not pinned are the very same objects.
    """
    changed: dict[str, Any] = {}
    if pin.matter is not None:
        changed = {name: _put(getattr(resin, name), value) for name, value in pin.matter if value is not None}
    kinetics = pin.kinetics
    if kinetics is None:
        return replace(resin, **changed)
    if kinetics.heat_of_reaction is not None:
        changed["heat_of_reaction"] = _put(resin.heat_of_reaction, kinetics.heat_of_reaction)
    return replace(resin, cure=_pinned_cure(resin.cure, kinetics), **changed)


def _put(own: Sourced, value: Quantity | float) -> Sourced:
    number = value.si if isinstance(value, Quantity) else float(value)
    return replace(own, value=number, low=None, high=None, conditions="pinned in the job file")


def _pinned_cure(own: CureLaw, pinned: PinKinetics) -> CureLaw:
    given = {name: getattr(pinned, key) for key, name in _FIELDS.items()}
    changed = {name: _put(getattr(own, name), value) for name, value in given.items() if value is not None}
    diffusion = pinned.diffusion if pinned.diffusion is not None else not changed
    if not diffusion:
        changed["diffusion_width"] = _put(own.diffusion_width, 0.0)
    start = pinned.start
    if start is None and pinned.a1 is not None and pinned.a1.si > 0.0:
        start = 0.0
    if start is not None:
        changed["initial_conversion"] = _put(own.initial_conversion, start)
    return replace(own, **changed)


def _grid(setup: Setup, pin: Pin, stands: Site) -> tuple[float, float]:
    width, depth, height = setup.piece.size
    spacing, across = (None, None) if pin.grid is None else (pin.grid.spacing, pin.grid.across)
    _refuse_wide(setup, "spacing", spacing, min(width, depth, height))
    _refuse_wide(setup, "across", across, min(width, depth))
    usual = (min(SPACING, height / LAYERS), min(SPACING, min(width, depth) / LAYERS))
    while count_cells(stands, *usual) > USUAL_CELLS:
        usual = (usual[0] * COARSER, usual[1] * COARSER)
    up = usual[0] if spacing is None else spacing.si
    beside = usual[1] if spacing is None else spacing.si
    return up, beside if across is None else across.si


def _refuse_wide(setup: Setup, name: str, asked: Quantity | None, most: float) -> None:
    if asked is not None and asked.si > most * (1 + 1e-9):
        raise UserError(
            f"cells of {asked.text} are wider than the piece",
            where=setup.job.where(("pin", "grid", name)),
            allowed=f"up to {format_length(most, setup.system, digits=1)}",
            todo="take a tenth of the piece's smallest side, or less",
        )


def _pours(setup: Setup, pin: Pin) -> tuple[PinnedPour, ...]:
    height = setup.piece.frame.height
    for i, pour in enumerate(pin.pour):
        if pour.to is not None and pour.to.si > height * (1 + 1e-9):
            raise UserError(
                f"a pour to {pour.to.text} would run over the mold",
                where=setup.job.where(("pin", "pour", i, "to")),
                allowed=f'up to {format_length(height, setup.system, digits=1)}, or "top"',
                todo='write to = "top"',
            )
    if not pin.pour:
        return (PinnedPour(height, 0.0),)
    return tuple(
        PinnedPour(
            height if pour.to is None else min(pour.to.si, height),
            0.0 if pour.at is None else pour.at.si,
            None if pour.temperature is None else pour.temperature.si,
        )
        for pour in pin.pour
    )


def _probes(setup: Setup, pin: Pin) -> Iterator[Probe]:
    lower, upper = setup.piece.mesh.bounds
    for i, probe in enumerate(pin.probe):
        place = (probe.x.si if probe.x else 0.0, probe.y.si if probe.y else 0.0, probe.z.si)
        name = probe.name or str(i + 1)
        if not _in_piece(setup, place):
            boxed = all(lower[n] <= value <= upper[n] for n, value in enumerate(place))
            what = "lies in the rubber" if boxed else "lies outside the piece"
            ends = [
                f"{axis} {_signed(low, setup.system)} to {_signed(high, setup.system)}"
                for axis, low, high in zip("xyz", lower, upper, strict=True)
            ]
            raise UserError(
                f"probe {name!r} {what}",
                where=setup.job.where(("pin", "probe", i)),
                allowed=f"{', '.join(ends)}, within the piece",
                todo="give a place in the casting",
            )
        yield Probe(name, place)


def _signed(length: float, system: UnitSystem) -> str:
    text = format_length(abs(length), system, digits=1)
    return f"-{text}" if length < -1e-9 else text


def _in_piece(setup: Setup, place: tuple[float, float, float]) -> bool:
    """A tiny cube around a place in the piece, or on its face, holds some of it."""
    cube = Grid(*([value - NEAR, value + NEAR] for value in place))
    return bool(cell_fractions(setup.room, cube).item() > 0.0)


def _refuse_without_a_start(job: Job, stands: Site, pours: tuple[PinnedPour, ...]) -> None:
    """A law that needs something cured to start from, and is given nothing."""
    cure, heat = stands.resin.cure, stands.resin.heat_of_reaction.value
    if heat <= 0.0 or cure.frequency_1.value > 0.0 or cure.frequency_2.value <= 0.0:
        return
    row, start = cure_law(cure).row, cure.initial_conversion.value
    warmth = pours[0].temperature or stands.poured_at(pours[0].start)
    if scalar_rate(warmth, start, row) == 0.0 < scalar_rate(warmth, 0.5, row):
        raise UserError(
            "with a1 = 0 and nothing cured at the start, the cure never starts",
            where=job.where(("pin", "kinetics", "start")),
            allowed="a start above 0, or an a1 above 0",
            todo="write start = 0.00001, or what the source of the law has",
        )


def _notes(pin: Pin, stands: Site) -> Iterator[str]:
    cure = stands.resin.cure
    if not pin.pour:
        yield "no [[pin.pour]]: the whole piece is poured in one go at time 0"
    if pin.matter is not None:
        yield "[pin.matter]: the casting is one material; bands of glass are left out"
    if stands.resin.heat_of_reaction.value <= 0.0:
        yield "the heat of reaction is 0: nothing warms by itself, and cure is not followed"
    elif cure.frequency_1.value <= 0.0 and cure.frequency_2.value <= 0.0:
        yield "a1 and a2 are 0: nothing cures"
    if cure.initial_conversion.value >= NEARLY_ALL:
        yield "all has cured before it is poured: no heat is left to come"
    if stands.film == 0.0:
        yield "h is 0: no heat gets out"
