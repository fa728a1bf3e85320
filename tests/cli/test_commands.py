"""Every command as a person types it: what it prints, its exit code, and what nonsense gets."""

from __future__ import annotations

import json
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from axlewright.cli.words import COMMANDS
from cli.conftest import Run

ROOT = Path(__file__).parents[2]


def test_every_command_has_an_example_and_the_readme_or_docs_name_it() -> None:
    told = "".join(p.read_text(encoding="utf-8") for p in (ROOT / "README.md", *(ROOT / "docs").rglob("*.md")))
    for name, words in COMMANDS.items():
        assert words.examples, name
        assert re.search(rf"run\.py {name}\b", told), f"{name} stands in no page of the docs"


EXAMPLES = [example for words in COMMANDS.values() for example in words.examples if " serve" not in example]


@pytest.mark.parametrize("example", EXAMPLES)
@pytest.mark.usefixtures("demo_there")  # an example may speak of the demo's yard
def test_the_examples_of_the_help_do_what_they_say(example: str, run: Run) -> None:
    run("lay-out", "my-yard") if "lay-out" not in example else None
    ran = run(*shlex.split(example)[1:])
    assert ran.code in (0, 1), ran.err
    assert ran.out.strip()


@pytest.mark.parametrize("example", [e for e in EXAMPLES if "--list" not in e])
@pytest.mark.usefixtures("demo_there")
def test_every_command_speaks_json(example: str, run: Run) -> None:
    run("lay-out", "my-yard") if "lay-out" not in example else None
    ran = run(*shlex.split(example)[1:], "--json")
    assert isinstance(json.loads(ran.out), dict)


def test_seen_without_a_yard(run: Run) -> None:
    ran = run("seen", "plug=paste", "level=at-mark", "where=wheel-side")
    assert ran.code == 0
    assert "WORK IN FIELD  only if" in ran.out
    assert "GO ON ROAD     not known" in ran.out


def test_seen_says_stop_with_exit_code_1(run: Run) -> None:
    ran = run("seen", "plug=chips")
    assert ran.code == 1
    assert "NO" in ran.out


def test_nothing_seen_is_not_known(run: Run) -> None:
    ran = run("seen")
    assert ran.code == 0
    assert ran.out.count("not known") >= 2
    assert " yes" not in ran.out


def test_seen_at_a_corner_opens_a_trouble_and_is_kept_once(run: Run, yard: Path) -> None:
    before = len(list((yard / "troubles").glob("*.toml")))
    ran = run("seen", "linnet/front-left", "plug=flakes", "level=low", "--yard", str(yard), "--json")
    found = json.loads(ran.out)
    assert ran.code == 0
    assert found["trouble"]
    assert len(list((yard / "troubles").glob("*.toml"))) == before + 1
    again = run("seen", "linnet/front-left", "rock=clunk", "--yard", str(yard), "--json")
    assert json.loads(again.out)["trouble"] == found["trouble"]
    assert again.code == 1, "a clunk stops FIELD"


def test_preview_keeps_nothing(run: Run, yard: Path) -> None:
    before = {p: p.read_bytes() for p in yard.rglob("*.toml")}
    assert run("seen", "linnet/front-left", "plug=chips", "--preview", "--yard", str(yard)).code == 1
    assert {p: p.read_bytes() for p in yard.rglob("*.toml")} == before


@pytest.mark.parametrize(
    ("words", "names"),
    [
        (("seen", "plug=chps"), "Did you mean chips?"),
        (("seen", "plugg=chips"), "Did you mean plug?"),
        (("seen", "plug"), "FINDING=GRADE"),
        (("seen", "plug=paste", "--clock", "soon"), "soon"),
        (("seen", "plug=paste", "--on", "2026-13-04"), "2026-13-04"),
        (("seen", "bramble/front-left", "plug=paste"), "There is no yard here"),
        (("corners",), "There is no yard here"),
        (("draw-up", "14"), "There is no yard here"),
        (("draw-up", "fourteen"), "fourteen"),
        (("lookover", "nowhere"), "nowhere"),
        (("draw-up", "--to", "pack.docx"), ".pdf"),
        (("nonsense",), "nonsense"),
        (("seen", "--paper", "A3"), "A3"),
    ],
)
def test_nonsense_is_named_in_a_line_or_two_and_ends_with_2(words: tuple[str, ...], names: str, run: Run) -> None:
    ran = run(*words)
    assert ran.code == 2
    assert names in ran.err
    assert len(ran.err.strip().splitlines()) <= 2
    assert "Traceback" not in ran.err


@pytest.mark.parametrize(
    ("words", "names"),
    [
        (("seen", "bramble/front-middle", "plug=paste"), "front-left"),
        (("seen", "brambel/front-left", "plug=paste"), "bramble"),
        (("seen", "bramble/front-left", "plug=paste", "--clock", "33660"), "Did you mean"),
        (("seen", "bramble/front-left", "plug=paste", "--clock", "12"), "12"),
        (("seen", "bramble/front-left", "plug=paste", "--threshing", "--clock", "3370"), "clock"),
        (("seen", "bramble/front-left", "plug=paste", "--on", "2026-09-30"), "2026-09-30"),
        (("seen", "bramble/front-left"), "What was seen there"),
        (("draw-up", "41"), "41"),
    ],
)
def test_nonsense_about_a_yard_is_named_and_changes_nothing(
    words: tuple[str, ...], names: str, run: Run, yard: Path
) -> None:
    before = {p: p.read_bytes() for p in yard.rglob("*.toml")}
    ran = run(*words, "--yard", str(yard))
    assert ran.code == 2
    assert names in ran.err
    assert "Traceback" not in ran.err
    assert {p: p.read_bytes() for p in yard.rglob("*.toml")} == before


def test_mistakes_come_as_json_too(run: Run) -> None:
    ran = run("seen", "plug=chps", "--json")
    assert ran.code == 2
    assert json.loads(ran.out)["faults"][0]["where"] == "plug"


def test_draw_up_writes_each_format_whole(run: Run, yard: Path, tmp_path: Path) -> None:
    for ending, starts in ((".pdf", b"%PDF"), (".html", b"<!doctype html>"), (".txt", b""), (".json", b"{")):
        to = tmp_path / "sheets" / f"pack{ending}"
        assert run("draw-up", "6", "--yard", str(yard), "--to", str(to)).code == 0
        assert to.read_bytes().startswith(starts)
    assert [p.name for p in (tmp_path / "sheets").iterdir() if p.name.startswith(".")] == []


def test_a_stopped_trouble_draws_up_make_safe_alone(run: Run, yard: Path) -> None:
    ran = run("draw-up", "7", "--yard", str(yard), "--json")
    assert ran.code == 1
    assert [sheet["name"] for sheet in json.loads(ran.out)["sheets"]] == ["make-safe"]


def test_the_same_trouble_gives_the_same_bytes(run: Run, yard: Path, tmp_path: Path) -> None:
    for name in ("a.pdf", "b.pdf"):
        run("draw-up", "6", "--yard", str(yard), "--to", str(tmp_path / name))
    assert (tmp_path / "a.pdf").read_bytes() == (tmp_path / "b.pdf").read_bytes()


def test_demo_twice_keeps_its_trouble_once(run: Run) -> None:
    first, second = (json.loads(run("demo", "--json").out) for _ in range(2))
    assert first["trouble"] == second["trouble"]
    assert all(Path(name).exists() for name in first["sheets"])
    shown = run("demo").out
    assert "What can be done:" in shown
    assert "draw-up 6" in shown


def test_lay_out_never_writes_over(run: Run) -> None:
    assert run("lay-out", "mine").code == 0
    (Path("mine") / "yard.toml").write_text('name = "Kept"\n', encoding="utf-8")
    assert run("lay-out", "mine").code == 2
    assert (Path("mine") / "yard.toml").read_text(encoding="utf-8") == 'name = "Kept"\n'


def test_help_needs_nothing_heavy() -> None:
    heavy = {"numpy", "pydantic", "typst", "fastapi", "jinja2", "scipy"}
    code = f"import sys; from axlewright.cli import build; build().format_help(); print(sorted({heavy!r} & set(sys.modules)))"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "[]"


def test_a_pack_is_printed_again_by_its_key(run: Run, yard: Path) -> None:
    first = run("draw-up", "6", "--yard", str(yard), "--json")
    key = json.loads(first.out)["key"]
    again = run("draw-up", key, "--yard", str(yard), "--json")
    assert again.out == first.out
    assert f"pack {key}" in run("draw-up", key, "--yard", str(yard)).out


def test_a_preview_keeps_nothing(run: Run, yard: Path) -> None:
    before = {p: p.read_bytes() for p in yard.rglob("*") if p.is_file() and ".axlewright" not in p.parts}
    assert run("draw-up", "6", "--yard", str(yard), "--preview").code == 0
    answered = run("draw-up", "6", "bolts/grease=moly-paste", "--yard", str(yard), "--preview")
    assert "moly" in answered.out
    assert {p: p.read_bytes() for p in yard.rglob("*") if p.is_file() and ".axlewright" not in p.parts} == before


def test_a_key_of_no_pack(run: Run, yard: Path) -> None:
    ran = run("draw-up", "0123456789abcdef", "--yard", str(yard))
    assert ran.code == 2
    assert "No pack was frozen" in ran.err
