"""What the description of the interface promises is kept, whatever is asked."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import schemathesis
from fastapi.testclient import TestClient
from hypothesis import HealthCheck, Phase, given, settings, strategies as st
from schemathesis.checks import load_all_checks, not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)

from pourwright.web.application import make_app
from tests.browser.pieces import put
from tests.browser.planned import with_plan
from tests.web.conftest import HERE

HELD = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_schema_conformance,
]
EXAMPLES = 16
NOT_FUZZED = {
    ("GET", "/jobs/{job}/events"),  # never ends
    ("POST", "/jobs/{job}/runs"),  # starts processes
}
KNOWN = {
    "job": ["block"],
    "chart": ["heat", "level", "calendar", "matters"],
    "sheet": ["plan", "mold", "cut", "fill"],
    "page": [1, 2],
    "part": ["piece", "surface", "rubber"],
    "drawing": ["mold-poured", "section"],
    "name": ["plan.pdf", "plan.json"],
}
SCHEMA = schemathesis.openapi.from_dict(make_app(Path("shop")).openapi())
OPERATIONS = [found.ok() for found in SCHEMA.get_all_operations()]
load_all_checks()


@pytest.fixture(scope="module")
def asking(tmp_path_factory: pytest.TempPathFactory) -> Iterator[TestClient]:
    """Asks as the page does, in a shop with one small job and a plan."""
    shop = tmp_path_factory.mktemp("shop")
    with_plan(put(shop, "block"))
    with TestClient(make_app(shop), base_url=HERE, headers={"origin": HERE}) as client:
        yield client


@pytest.mark.parametrize(
    "operation",
    [one for one in OPERATIONS if (one.method.upper(), one.path) not in NOT_FUZZED],
    ids=lambda one: one.label,
)
def test_whatever_is_asked_the_answer_is_as_described(
    asking: TestClient, operation: schemathesis.APIOperation
) -> None:
    @settings(
        max_examples=EXAMPLES,
        derandomize=True,
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(operation.as_strategy(), st.integers(0, 11))
    def ask(case: schemathesis.Case, turn: int) -> None:
        # names that nobody gave answer 404 and nothing else
        if turn > 2:
            _name_what_is_there(case, turn)
        case.validate_response(_sent(asking, case), checks=HELD)

    ask()


def _name_what_is_there(case: schemathesis.Case, turn: int) -> None:
    for name in set(case.path_parameters) & set(KNOWN):
        case.path_parameters[name] = KNOWN[name][turn % len(KNOWN[name])]
    case.query.pop("variant", None)


def _sent(client: TestClient, case: schemathesis.Case) -> Any:
    wanted = case.as_transport_kwargs(base_url=HERE)
    body = wanted.pop("data", None)
    if isinstance(body, str | bytes):
        wanted["content"] = body
    elif body is not None:
        wanted["data"] = body
    wanted["headers"] = dict(wanted["headers"]) | {"origin": HERE}
    return client.request(**{name: value for name, value in wanted.items() if value is not None})


def test_every_page_of_data_is_described() -> None:
    described = {one.path for one in OPERATIONS}
    assert {"/shelf.json", "/jobs/{job}.json"} <= described
    assert all(one.definition.raw.get("summary") for one in OPERATIONS)
