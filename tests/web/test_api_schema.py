"""The description of the HTTP interface, tried against the interface itself by a library that reads descriptions.

The library makes bodies and addresses that fit the description, and some that just do not, sends them and holds the answer
against what was said of it: no failure of the server, no status, form or field that is not described, nothing taken that the
description forbids. Formulas have their own tests; a few stand here for them all.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from fastapi.openapi.models import OpenAPI
from fastapi.routing import APIRoute
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis.errors import Unsatisfiable
from starlette.testclient import TestClient

from axlewright import desk, store
from axlewright.web.api import bodies, deeds, reads, sheets
from axlewright.web.app import make
from axlewright.yard import Yard

SOME = ("bolt-window", "crib-layouts", "hoist-loads")
OPERATIONS = sorted(f"POST {deeds.HOME}/{one.address}" for one in deeds.operations()) + sorted(
    f"GET {route.path}"
    for route in (*reads.router.routes, *sheets.router.routes)
    if isinstance(route, APIRoute) and route.include_in_schema and "GET" in route.methods
)
FORMULAS = [f"{method} /api/formula/{name}" for name in SOME for method in ("GET", "POST")]
BUT = ("positive_data_acceptance",)  # a description cannot know which troubles there are, nor which course is open


@pytest.fixture(scope="module")
def library() -> Any:
    """Read only when a test here runs: nobody else waits for it."""
    import schemathesis

    return schemathesis


@pytest.fixture(scope="module")
def described(library: Any, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """Every operation of the running app over a copy of the demo yard, by its method and address."""
    where = tmp_path_factory.mktemp("tried") / "low meadow"
    store.lay_out(where, store.DEMO)
    schema = library.openapi.from_asgi("/openapi.json", make(where))
    return {result.ok().label: result.ok() for result in schema.get_all_operations()}


def test_every_operation_is_tried(described: dict[str, Any]) -> None:
    rest = {label for label in described if not label.split(" ")[1].startswith("/api/formula")}
    assert rest == {*OPERATIONS, f"POST {deeds.HOME}/take-back"}
    assert set(FORMULAS) <= set(described)


@pytest.mark.parametrize("fits", ["fits", "does not"])
@pytest.mark.parametrize("label", [*OPERATIONS, f"POST {deeds.HOME}/take-back", *FORMULAS])
def test_it_answers_as_it_is_described(label: str, fits: str, described: dict[str, Any], library: Any) -> None:
    mode = library.GenerationMode.POSITIVE if fits == "fits" else library.GenerationMode.NEGATIVE
    checks = [getattr(library.checks, name) for name in BUT]

    @settings(
        max_examples=5,
        derandomize=True,
        database=None,
        deadline=None,
        phases=[Phase.explicit, Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(case=described[label].as_strategy(generation_mode=mode))
    def tried(case: Any) -> None:
        case.call_and_validate(excluded_checks=checks)

    try:
        tried()
    except Unsatisfiable:
        assert "does not" in fits, "an operation that takes nothing cannot be asked wrongly"


@pytest.fixture(scope="module")
def told(pages: TestClient) -> dict[str, Any]:
    got: dict[str, Any] = pages.get("/openapi.json").json()
    return got


def test_it_is_openapi_and_no_link_in_it_is_broken(told: dict[str, Any]) -> None:
    OpenAPI.model_validate(told)
    schemas = told["components"]["schemas"]
    missing = {link for link in links(told) if link not in schemas}
    assert not missing


def links(said: Any) -> Iterator[str]:
    if isinstance(said, dict):
        if isinstance(said.get("$ref"), str):
            yield said["$ref"].rsplit("/", 1)[1]
        for one in said.values():
            yield from links(one)
    elif isinstance(said, list):
        for one in said:
            yield from links(one)


def test_every_operation_says_what_it_does_and_what_may_go_wrong(told: dict[str, Any]) -> None:
    for path, methods in told["paths"].items():
        for operation in methods.values():
            assert operation["summary"], path
            assert operation["operationId"], path
            wrong = {code for code in operation["responses"] if code >= "400"}
            assert wrong or path in ("/api/formula",), path
            for code in wrong:
                assert set(operation["responses"][code]["content"]) == {"application/problem+json"}, path


@pytest.mark.parametrize("one", [one for one in deeds.operations() if not one.file], ids=lambda one: one.address)
def test_every_deed_has_an_example_that_can_be_read(one: deeds.Operation, told: dict[str, Any]) -> None:
    content = told["paths"][f"{deeds.HOME}/{one.address}"]["post"]["requestBody"]["content"]["application/json"]
    assert content["example"]
    bodies.read(one.takes, json.dumps(content["example"]).encode(), demo())


def demo() -> Yard:
    return store.at(store.DEMO).read()


def test_every_deed_of_the_desk_is_an_operation(told: dict[str, Any]) -> None:
    """A deed that somebody adds is one without a line in the interface."""
    there = {path.rsplit("/", 1)[1] for path in told["paths"] if path.startswith(deeds.HOME)}
    assert there == {name.replace("_", "-") for name in desk.ROLES}


def test_the_description_needs_no_yard_that_is_whole(tmp_path: Path) -> None:
    (tmp_path / "yard.toml").write_text("nothing = 1\n", encoding="utf-8")
    client = TestClient(make(tmp_path))
    assert client.get("/openapi.json").status_code == 200
    got = client.get("/api/yard")
    assert got.status_code == 422
    assert got.headers["content-type"] == "application/problem+json"
    assert got.json()["faults"]
