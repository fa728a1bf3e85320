"""One test per check value."""

from __future__ import annotations

from typing import Any

import pytest
from checks.bindings import bindings, checks, unbound_reasons
from checks.compare import differences

CHECKS = checks()


@pytest.mark.parametrize("check", [c for c in CHECKS if c["id"] in bindings()], ids=lambda c: c["id"])
def test_check_value(check: dict[str, Any]) -> None:
    got = bindings()[check["id"]](check["inputs"])
    wrong = differences(check["expected"], got, check.get("tolerance", {}))
    assert not wrong, f"{check['id']} ({check['source']}):\n" + "\n".join(wrong)


def test_every_check_is_bound_or_says_why_not() -> None:
    reasons = unbound_reasons()
    unbound = [
        c["id"]
        for c in CHECKS
        if c["id"] not in bindings() and c["id"] not in reasons and f"engine {c['engine']}" not in reasons
    ]
    assert not unbound, f"no binding and no reason: {unbound}"


def test_no_reason_outlives_its_need() -> None:
    ids = {c["id"] for c in CHECKS}
    engines_unbound = {f"engine {c['engine']}" for c in CHECKS if c["id"] not in bindings()}
    idle = [r for r in unbound_reasons() if (r not in ids or r in bindings()) and r not in engines_unbound]
    assert not idle, f"reasons that excuse nothing: {idle}"


def test_every_binding_has_its_check() -> None:
    assert not set(bindings()) - {c["id"] for c in CHECKS}


def test_ids_are_unique() -> None:
    ids = [c["id"] for c in CHECKS]
    assert len(ids) == len(set(ids))
