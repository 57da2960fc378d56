"""What a check says about rubber that has to set on the master and let go of it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from pourwright.app.castable import Finding
from pourwright.app.contact import Contact, layers_words, stop_todo, stop_words


def contact_findings(contact: Contact, today: date) -> Iterator[Finding]:
    """Say whether rubber may be mixed.

    Parameters
    ----------
    contact : Contact
        Judged.
    today : date
        In the shop.

    Yields
    ------
    Finding
        "stop" where the rubber does not set or never lets go, and no test patch says otherwise.
    """
    rubber, on = contact.rubber.name, layers_words(contact.master.layers)
    if not contact.blocked(today):
        passed = contact.job.master.patch_test
        told = "" if passed is None else f"; the test patch passed on {passed.isoformat()}"
        yield Finding("ok", f"{rubber} on {on}: sets and lets go{told}")
    elif contact.verdict == "no":
        yield Finding("stop", stop_words(contact), stop_todo(contact))
    else:
        todo = "lay a test patch before any rubber is mixed, then write its date to master.patch_test"
        yield Finding("mind", f"{rubber} on {on}: test first", todo)
    for judged in contact.judged:
        for hint in judged.hints:
            yield Finding("mind", hint)
