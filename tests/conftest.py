"""What all tests share: Hypothesis profiles, and the reason why a browser test is skipped."""

from __future__ import annotations

import os
import shutil

import pytest
from hypothesis import HealthCheck, settings

settings.register_profile("dev", max_examples=40, deadline=None)
settings.register_profile(
    "ci", max_examples=100, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "ci" if os.environ.get("CI") else "dev"))


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    if shutil.which("chromium") or shutil.which("google-chrome") or shutil.which("chrome"):
        return
    skip = pytest.mark.skip(reason="no Chromium on this machine: install it to run the browser tests")
    for item in items:
        if item.get_closest_marker("browser"):
            item.add_marker(skip)
