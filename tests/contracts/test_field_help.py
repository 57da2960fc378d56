"""Every field of the page belongs to a section and is explained; what a typical value leans on exists."""

from typing import Any

from pourwright.app.choosing.catalogue import SECTIONS, choices, field_help, section_of
from pourwright.app.choosing.helping import help_document
from pourwright.foundation.sources import Kind, load_sources
from pourwright.jobs.job import Job
from tests.contracts.test_docs import keys

PARTS = ("label", "sentence", "why", "typical", "kind", "source")


def entries(table: dict[str, Any], above: str = "") -> dict[str, dict[str, Any]]:
    """Every entry of the data file by the key it explains."""
    found: dict[str, dict[str, Any]] = {}
    for name, below in table.items():
        if isinstance(below, dict) and name != "words":
            found |= {f"{above}{name}": below} if "label" in below else {}
            found |= entries(below, f"{above}{name}.")
    return found


ENTRIES = entries(dict(field_help()))


def test_every_key_of_the_job_file_has_a_section() -> None:
    assert {section_of(tuple(key.split("."))) for key in keys(Job)} == set(SECTIONS)


def test_every_entry_explains_a_field_that_exists() -> None:
    assert set(ENTRIES) - set(choices()) == set()


def test_every_main_field_is_explained_in_full() -> None:
    main = {key for key, choice in choices().items() if choice.main and not choice.needs}
    assert 25 <= len(main) <= 45
    lacking = {key: [part for part in PARTS if not ENTRIES.get(key, {}).get(part)] for key in main}
    assert {key: parts for key, parts in lacking.items() if parts} == {}


def test_every_label_is_said_once() -> None:
    labels = [choice.label for choice in choices().values() if not choice.needs]
    assert sorted(labels) == sorted(set(labels))


def test_every_source_and_kind_of_the_help_exists() -> None:
    kinds, known = {str(kind) for kind in Kind}, load_sources()
    lost = [
        key
        for key, entry in ENTRIES.items()
        if "source" in entry and (entry["source"] not in known or entry["kind"] not in kinds)
    ]
    assert lost == []


def test_words_are_those_of_the_values_that_are_allowed() -> None:
    wrong = {
        key: sorted(set(entry["words"]) ^ set(choices()[key].kind.allowed))
        for key, entry in ENTRIES.items()
        if "words" in entry and set(entry["words"]) != set(choices()[key].kind.allowed)
    }
    assert wrong == {}


def test_every_field_of_the_page_has_one_sentence_and_says_where_its_value_is_from() -> None:
    told = help_document()
    assert set(told) == set(choices())
    for key, entry in told.items():
        assert entry["sentence"].endswith("."), key
        assert entry["typical"], key
        assert entry["source"], key
