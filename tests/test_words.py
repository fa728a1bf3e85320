"""Words: one per thing, and none of those that belong to other programs."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
# words.md, "Not to be used"; single words that are ordinary English elsewhere (open, normal, good) are held to the
# places where they would be states: trade rows and templates
PHRASES = (
    "work order", "job card", "task card", "work package", "checklist template", "inspection form", "health score",
    "risk matrix", "criticality rank", "downtime event", "awaiting parts", "in progress", "on hold", "dashboard", "backlog", "pipeline",
)  # fmt: skip
FILES = [
    path
    for folder in ("src", "docs", "tests")
    for path in (ROOT / folder).rglob("*")
    if path.suffix in {".py", ".toml", ".html", ".css", ".md", ".typ", ".js"}
    and path.name not in {"test_words.py", "style.md"}
    and "checks" not in path.parts
] + [ROOT / name for name in ("README.md", "CONTRIBUTING.md", "run.py", "start.py")]


@pytest.mark.parametrize("phrase", PHRASES)
def test_no_word_of_other_programs(phrase: str) -> None:
    pattern = re.compile(rf"\b{re.escape(phrase)}s?\b", re.IGNORECASE)
    found = [
        f"{path.relative_to(ROOT)}:{number}"
        for path in FILES
        if path.exists()
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1)
        if pattern.search(line)
    ]
    assert not found, f"{phrase!r} stands in {found}"


def test_no_path_of_a_machine_in_the_project() -> None:
    found = [
        str(path.relative_to(ROOT))
        for path in FILES
        if path.exists()
        and path.name != "test_words.py"
        and re.search(r"(?<![\w.])/(work|home|root)/", path.read_text(encoding="utf-8"))
    ]
    assert not found
