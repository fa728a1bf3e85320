"""formula: by name, with values as one types them; what is wrong is said in sentences."""

from __future__ import annotations

import json
import shlex

import pytest

from axlewright.formulary import functions, said
from axlewright.formulary.ask import ask
from axlewright.formulary.examples import texts_to_try
from cli.conftest import Run

BOLT = (
    "bolt-window",
    "thread=M20",
    "head=10.9",
    "grease=anti-seize",
    "engaged=27 mm",
    "clamp=92 kN",
    "housing=iron 250",
)
PLAIN = ("preload-from-nut-factor", "torque=340 N·m", "diameter=20 mm", "nut-factor=0.14")


def test_every_function_by_name(run: Run) -> None:
    for name, found in functions().items():
        texts = texts_to_try(found)
        words = shlex.split(said.command(name, texts))
        ran = run(*words, "--json")
        assert ran.code == 0, ran.err
        got = json.loads(ran.out)
        assert got == json.loads(json.dumps(said.answer_data(ask(name, texts))))
        plain = run(*words)
        assert plain.code == 0
        for value in got["values"].values():
            assert value["says"] in plain.out


def test_the_list_begins_with_the_bolt_window(run: Run) -> None:
    ran = run("formula", "--list")
    assert ran.code == 0
    assert ran.out.splitlines()[1].split()[0] == "bolt-window"
    assert all(f"  {name} " in ran.out for name in functions())
    assert run("formula").out == ran.out
    rows = json.loads(run("formula", "--list", "--json").out)["formulas"]
    assert rows[0]["formula"] == "bolt-window"
    cribs = run("formula", "--list", "crib", "-q").out.split()
    assert "crib-build" in cribs
    assert "torque-split" not in cribs


def test_a_list_of_nothing_says_so(run: Run) -> None:
    ran = run("formula", "--list", "qqq")
    assert (ran.code, ran.out) == (2, "")
    assert "No function has that" in ran.err
    assert json.loads(run("formula", "--list", "qqq", "--json").out) == {"formulas": []}


def test_without_values_it_says_what_it_takes(run: Run) -> None:
    for name in functions():
        ran = run("formula", name)
        assert ran.code == 0
        for slot in functions()[name].takes:
            assert f"  {slot.key}" in ran.out
        assert f"axlewright formula {name}" in ran.out
        assert json.loads(run("formula", name, "--json").out)["takes"]


def test_the_example_it_gives_is_one_that_runs(run: Run) -> None:
    for measures in ("metric", "us"):
        told = run("formula", "bolt-window", "--measures", measures).out
        example = shlex.split(told.split("Try\n")[1])
        assert run(*example[1:], "--measures", measures).code == 0


def test_the_answer_stands_first_in_one_sentence(run: Run) -> None:
    ran = run("formula", *BOLT)
    assert ran.code == 0
    assert ran.out.startswith("With anti-seize set ")
    assert " holds." in ran.out.splitlines()[0]


def test_where_nothing_is_safe_no_torque_is_printed(run: Run) -> None:
    ran = run("formula", *BOLT, "--json")
    set_to = json.loads(ran.out)["values"]["set-to"]["says"]
    unsafe = run("formula", *[word for word in BOLT if not word.startswith("clamp")], "clamp=150 kN")
    assert unsafe.code == 0
    assert "nothing is safe to set" in unsafe.out.splitlines()[0]
    assert set_to not in unsafe.out
    assert "set-to                   nothing is safe to set" in unsafe.out


def test_why_tells_source_range_of_validity_and_what_each_number_rests_on(run: Run) -> None:
    told = run("formula", *BOLT, "--why").out
    assert "Source  VDI 2230-1" in told
    assert "Valid   " in told
    assert "computed (cp)" in told
    assert "as typed" in told
    assert "taken, nothing was typed" in told, "the wrench's mark was not typed"
    assert "Source" not in run("formula", *BOLT).out


def test_measures_and_decimal_mark(run: Run) -> None:
    metric = json.loads(run("formula", *PLAIN, "--json").out)["values"]["result"]
    us = json.loads(run("formula", *PLAIN, "--measures", "us", "--json").out)["values"]["result"]
    assert (metric["unit"], us["unit"]) == ("kN", "lbf")
    assert metric["si"] == us["si"]
    assert us["value"] == pytest.approx(metric["si"] / 4.4482216152605)
    comma = run("formula", PLAIN[0], "torque=340,5 N·m", "diameter=20 mm", "nut-factor=0,14", "--decimal", ",")
    assert "121,6 kN" in comma.out.replace("\u00a0", " ")


def test_only_what_was_asked_for(run: Run) -> None:
    assert run("formula", *PLAIN, "-q").out.replace("\u00a0", " ") == "result 121.4 kN\n"


@pytest.mark.parametrize(
    ("words", "names"),
    [
        (("bolt-windw", "thread=M20"), "Did you mean bolt-window?"),
        (("nothing-like-it",), "There is no nothing-like-it"),
        (("thread=M20",), "Which formula?"),
        (("preload-from-nut-factor", "torque"), "torque has no =."),
        (("preload-from-nut-factor", "torque=340", "diameter=20 mm", "nut-factor=0.14"), "Type 340 N·m or 340 lbf·ft"),
        (("preload-from-nut-factor", "torque=340 bar", "diameter=20 mm", "nut-factor=0.14"), "bar is a pressure"),
        (("preload-from-nut-factor", "torque=340 N·m", "diameter=20 mm", "nut-factor=0.9"), "0.03 to 0.6"),
        ((*PLAIN, "torque=341 N·m"), "typed twice"),
        ((*PLAIN, "torqe=341 N·m"), "Did you mean torque?"),
        (
            (*PLAIN[:3],),
            "nut-factor: This is missing: nut factor K of this thread and grease. Type nut-factor=0.14, say.",
        ),
        (("turns-by-hand", "turns=9.5", "thread=M16", "head=8.8"), "it is not whole"),
        (("turns-by-hand", "turns=9", "thread=M17,3", "head=8.8"), "thread"),
        (("turns-by-hand", "turns=9", "thread=M16", "head=9.9"), "head"),
        (("book-torque", "torque=210 N·m", "thread=M16", "head=8.8", "grease=butter"), "anti-seize"),
        (("stand-rating", "plate=6 t", "per-pair=perhaps"), "yes or no"),
        (("stand-rating", "plate=6 ton", "per-pair=yes"), "not the same everywhere"),
    ],
)
def test_nonsense_is_named_and_ends_with_2(words: tuple[str, ...], names: str, run: Run) -> None:
    ran = run("formula", *words)
    assert ran.code == 2
    assert names in ran.err
    assert ran.out == ""
    assert "Traceback" not in ran.err
    as_json = run("formula", *words, "--json")
    assert as_json.code == 2
    assert json.loads(as_json.out)["faults"]


def test_every_mistake_at_once(run: Run) -> None:
    ran = run("formula", "preload-from-nut-factor", "torque=x", "diameter=y")
    assert [line.split(":")[0] for line in ran.err.splitlines()] == ["torque", "diameter", "nut-factor"]
