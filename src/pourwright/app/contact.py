"""Whether the rubber of a job sets on its master and lets go of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from pourwright.foundation.errors import UserError
from pourwright.jobs.job import Job
from pourwright.jobs.mold_contact import Patch
from pourwright.materials.contact import Cast, Coat, ContactTable, Verdict, hint_for, load_contact
from pourwright.materials.records import Mineral, Resin, Rubber
from pourwright.mold.sticking import (
    OLD_RUBBER,
    Judgement,
    Layers,
    better,
    default_release,
    default_sealer,
    judge,
    worst,
)


@dataclass(frozen=True)
class Contact:
    """The faces that curing rubber meets, judged.

    Parameters
    ----------
    job : Job
        As written.
    rubber : Rubber
        Its record.
    master : Judgement
        Of the master with its coats.
    old_rubber : Judgement or None
        Of cured rubber that the new one is poured against.
    """

    job: Job
    rubber: Rubber
    master: Judgement
    old_rubber: Judgement | None

    @property
    def judged(self) -> tuple[Judgement, ...]:
        """Every face."""
        return (self.master,) if self.old_rubber is None else (self.master, self.old_rubber)

    @property
    def verdict(self) -> Verdict:
        """The worst of all faces."""
        return worst([one.verdict for one in self.judged])

    @property
    def sealer(self) -> Coat | None:
        """None where the table does not know it."""
        return load_contact().sealer.get(self.master.layers.sealer)

    @property
    def release(self) -> Coat | None:
        """None where the table does not know it."""
        return load_contact().release.get(self.master.layers.release)

    @property
    def needs_patch(self) -> bool:
        """Whether a test patch is still to be made."""
        return self.verdict != "fine" and self.job.master.patch_test is None

    def blocked(self, today: date) -> bool:
        """Whether no rubber may be mixed yet: the patch is not made, or its date is still to come."""
        passed = self.job.master.patch_test
        return self.verdict != "fine" and (passed is None or passed > today)


def contact_of(job: Job, rubber: Rubber) -> Contact:
    """Judge the faces that the rubber of a job meets.

    Parameters
    ----------
    job : Job
        As written.
    rubber : Rubber
        Its record.

    Returns
    -------
    Contact
    """
    master, mold = job.master, job.mold
    on_old = mold.on_old_rubber or mold.way == "two-part"
    surface = master.material or master.board
    layers = Layers(
        surface,
        master.sealer or default_sealer(surface),
        mold.release or default_release(surface, on_old_rubber=on_old),
        rubber.cure_kind,
    )
    old = OLD_RUBBER.get(rubber.cure_kind, "cured rubber")
    parting = judge(replace(layers, surface=old, sealer="none")) if on_old else None
    return Contact(job, rubber, judge(layers), parting)


def refuse_sticking(contact: Contact, today: date) -> None:
    """Refuse to plan a mold whose rubber does not set on its master or never lets go of it.

    Parameters
    ----------
    contact : Contact
        Judged.
    today : date
        A test patch that has passed by then outranks the table.

    Raises
    ------
    UserError
        With the worst factor and what would mend it.
    """
    if contact.verdict == "no" and contact.blocked(today):
        raise UserError(stop_words(contact), where=contact.job.where(_line(contact)), todo=stop_todo(contact))


def _line(contact: Contact) -> str:
    if contact.master.verdict != "no":
        return "mold.release"
    return "master.material" if contact.job.master.material else "master.board"


def stop_words(contact: Contact) -> str:
    """Say which face spoils the mold and why."""
    bad = next(one for one in contact.judged if one.verdict == "no")
    cell = next(cell for cell in bad.cells if cell.left == "no")
    return f"{contact.rubber.name} on {layers_words(bad.layers)}: no; {cell.what}: {cell.why}"


def stop_todo(contact: Contact) -> str:
    """Say what would mend it."""
    ways = [*better_words(contact), "or prove it: a test patch that came off cured and clean, its date in"]
    return f"{', '.join(ways)} master.patch_test"


def better_words(contact: Contact) -> Iterator[str]:
    """Coats, or a rubber of the other cure, that would be better than what was chosen."""
    for one in contact.judged:
        found = better(one.layers)
        if found is not None:
            yield f"{_change(one.layers, found.layers)} ({found.verdict})"
    other = "tin" if contact.rubber.cure_kind == "platinum" else "platinum"
    turned = contact_with(contact, other)
    if contact.verdict == "no" and turned != "no":
        yield f"or take a rubber that cures by {other} ({turned})"


def contact_with(contact: Contact, cure_kind: str) -> Verdict:
    """Verdict with a rubber of another cure."""
    return worst([judge(replace(one.layers, cure_kind=cure_kind)).verdict for one in contact.judged])


def _change(before: Layers, after: Layers) -> str:
    changed = []
    if after.sealer != before.sealer:
        changed.append(f'master.sealer = "{after.sealer}"')
    if after.release != before.release:
        changed.append(f'mold.release = "{after.release}"')
    return " and ".join(changed)


def layers_words(layers: Layers, table: ContactTable | None = None) -> str:
    """Name a surface with its coats: ``MDF with clear acrylic lacquer``."""
    table = table or load_contact()
    known = table.surface.get(layers.surface)
    coats = [
        f"'{name}'" if name not in shelf else shelf[name].name
        for name, shelf in ((layers.sealer, table.sealer), (layers.release, table.release))
        if name != "none"
    ]
    name = f"'{layers.surface}'" if known is None else known.name
    return f"{name} with {' and '.join(coats)}" if coats else f"bare {name}"


def patch_part(contact: Contact, today: date) -> Patch:
    """Write what the rubber ticket has to know."""
    passed = contact.job.master.patch_test
    return Patch(
        verdict=contact.verdict,
        layers=layers_words(contact.master.layers),
        passed="" if passed is None else passed.isoformat(),
        blocked=contact.blocked(today),
        cures_h=contact.rubber.demold_time.value / 3600,
    )


def cast_of(record: Resin | Mineral, table: ContactTable | None = None) -> tuple[Cast | None, str]:
    """Find the family of a casting material in the table.

    Parameters
    ----------
    record : Resin or Mineral
        Of what is cast.
    table : ContactTable, optional
        Else the package's own.

    Returns
    -------
    tuple
        The entry or None, and what is not known.
    """
    table = table or load_contact()
    told = f"{record.id} {getattr(record, 'family', '')}".lower().replace("-", " ").split()
    found = next((table.cast[word] for word in told if word in table.cast), None)
    if found is not None:
        return found, ""
    return (
        None,
        f"nothing is known of '{record.id}' in the cured mold: test first; {hint_for(record.id, table.cast)}",
    )
