"""The last page of a document told in parts: where its numbers come from."""

from __future__ import annotations

from pourwright.jobs.told import Told
from pourwright.sheets.pages.common import Page, table
from pourwright.sheets.wording import Wording


def sources_page(sheet: Told, words: Wording) -> Page:
    """Fill the page of sources.

    Parameters
    ----------
    sheet : Told
        All that is told.
    words : Wording
        The maker's units.

    Returns
    -------
    dict
        Sources, and what the document was reckoned from.
    """
    rows = [[source.citation, source.kind, source.used_for] for source in sheet.sources]
    made = [
        f"Made by version {sheet.version} for {words.dated(sheet.computed_for)}.",
        *(each.words for each in sheet.learnt),
        *(f"Made from {name}, sha256 {digest[:16]}…" for name, digest in sorted(sheet.inputs.items())),
    ]
    sources = {"table": table(["source", "kind", "used for"], rows, "lll"), "size": 8.6}
    return {"title": "From where", "blocks": [sources, *({"small": text} for text in made)]}
