"""Options before, between or after the words: the same is said and kept; what no command takes is refused."""

from __future__ import annotations

from pathlib import Path

import pytest

from cli.conftest import Run


@pytest.mark.parametrize(
    "words",
    ["draw-up 6 --nonsense bolts/grease=rust", "corners bolts/grease=rust", "seen --nonsense plug=chips", "put-by 6 7"],
)
def test_what_no_command_takes_is_refused(words: str, run: Run) -> None:
    ran = run(*words.split())
    assert ran.code == 2
    assert "unrecognized arguments" in ran.err
    assert not ran.out


@pytest.mark.parametrize(
    ("command", "words"),
    [
        ("draw-up", ["6", "--list"]),
        ("seen", ["plug=chips", "--preview"]),
        ("seen", ["wren/front-right", "level=low", "--preview"]),
    ],
)
def test_an_option_may_stand_anywhere(command: str, words: list[str], run: Run, yard: Path) -> None:
    option = ["--yard", str(yard)]
    said = {run(command, *words[:at], *option, *words[at:]).out for at in range(len(words) + 1)}
    assert len(said) == 1
    assert said.pop().strip()


def test_answers_may_stand_after_an_option(run: Run, yard: Path) -> None:
    for number, words in enumerate((["--yard", str(yard), "6"], ["6", "--yard", str(yard)])):
        ran = run("draw-up", *words, f"bolts/book-torque={380 + number} N·m")
        assert ran.code == 0, ran.err
        assert f"{380 + number}" in ran.out


@pytest.mark.parametrize("clock", ["1e9", "-5", "nan", "about 1e9", "10 ± 1e9", "1e400"])
@pytest.mark.parametrize("corner", [[], ["wren/front-right"]])
def test_a_clock_that_no_clock_shows_is_refused_and_nothing_kept(
    clock: str, corner: list[str], run: Run, yard: Path
) -> None:
    before = {path: path.read_bytes() for path in yard.rglob("*.toml")}
    ran = run("seen", *corner, "plug=paste", f"--clock={clock}", "--yard", str(yard))
    assert ran.code == 2
    assert ran.err.startswith("--clock: ")
    assert {path: path.read_bytes() for path in yard.rglob("*.toml")} == before
