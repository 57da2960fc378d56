import re

import pytest

from pourwright.foundation.sources import Kind, Source, Sourced, load_sources


@pytest.mark.parametrize("source", load_sources().values(), ids=list(load_sources()))
def test_every_source_is_fit_to_print(source: Source) -> None:
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", source.id)
    assert len(source.citation) > 15
    assert source.citation == source.citation.strip()
    assert source.printed.endswith("(citation from memory)") is not source.seen


def test_a_number_travels_with_its_source() -> None:
    number = Sourced(0.2, "W/(m K)", 0.15, 0.25, Kind.MEMORY, "nist-hb-44", "23 degC")
    assert number.kind == "from memory"
    with pytest.raises(AttributeError):
        number.value = 0.3  # type: ignore[misc]
