"""The Formulary's pages and its operations: every function, nonsense for every kind of argument, the same number on all faces."""

from __future__ import annotations

import re
from pathlib import Path
from urllib.parse import urlencode

import html5lib
import pytest
from starlette.testclient import TestClient

from axlewright import store
from axlewright.formulary import formula, functions, names, said
from axlewright.formulary.ask import ask, headline
from axlewright.formulary.examples import texts_to_try
from axlewright.web.app import make
from axlewright.web.openapi import HOME
from axlewright.web.typed import OURS

BOLT = {
    "thread": "M20",
    "head": "10.9",
    "grease": "anti-seize",
    "engaged": "27 mm",
    "clamp": "92 kN",
    "housing": "iron 250",
}
PLAIN = {"torque": "340 N·m", "diameter": "20 mm", "nut-factor": "0.14"}
HOSTILE = "<script>alert(1)</script>'; DROP TABLE findings; -- \U0001f69c \u202eesrever"


def page(pages: TestClient, name: str, texts: dict[str, str], status: int = 200) -> str:
    got = pages.get(f"/formulary/{name}?{urlencode(texts)}" if texts else f"/formulary/{name}")
    assert got.status_code == status, f"{name} {texts}"
    return str(got.text)


def heading(text: str) -> str:
    return html5lib.parse(text, namespaceHTMLElements=False).find(".//h1").text or ""


# --- pages


def test_the_list_has_every_function_the_bolt_window_first(pages: TestClient) -> None:
    got = pages.get("/formulary")
    html5lib.HTMLParser(strict=True).parse(got.text)
    linked = re.findall(r'href="/formulary/([^"#]+)"', got.text)
    assert linked[0] == "bolt-window"
    assert sorted(linked) == sorted(functions())
    assert len(got.content) <= 60_000
    assert "<script" not in got.text


@pytest.mark.parametrize("name", names())
def test_a_page_is_whole_small_and_shows_its_example(name: str, pages: TestClient) -> None:
    got = pages.get(f"/formulary/{name}")
    assert got.status_code == 200
    html5lib.HTMLParser(strict=True).parse(got.text)
    assert len(got.content) <= 60_000
    assert "<script" not in got.text
    assert heading(got.text) == headline(ask(name, texts_to_try(formula(name))))
    assert "An example stands" in got.text
    found = formula(name)
    for key, _ in said.leaves(found.takes, texts_to_try(found)):
        assert got.text.count(f' name="{key}"') == 1, key
        assert f'for="f-{key}"' in got.text


@pytest.mark.parametrize("name", ["bolt-window", "hang", "crib-layouts", "preload-from-nut-factor", "stand-rating"])
def test_a_result_is_a_link(name: str, pages: TestClient) -> None:
    """What is typed stands in the address: the same address gives the same answer, and all that was typed."""
    texts = texts_to_try(formula(name))
    text = page(pages, name, texts)
    assert heading(text) == headline(ask(name, texts))
    assert "Typed on the" in text
    for key, slot in said.leaves(formula(name).takes, texts):
        if not slot.choices and key in texts:
            assert re.search(rf'name="{re.escape(key)}"[^>]* value="{re.escape(texts[key])}"', text), key
    for link in re.findall(r'href="([^"#]*[?][^"]*)"', text):
        address = link.replace("&amp;", "&")
        assert pages.get(address if address.startswith("/") else f"/formulary/{name}{address}").status_code == 200


@pytest.mark.parametrize("name", ["passes", "hang", "preload-from-nut-factor"])
def test_the_own_line_ends_in_the_result(name: str, pages: TestClient) -> None:
    """The formula's own line as text, the heading and the dimension say one thing."""
    text = page(pages, name, {})
    own = text.split('<p class="fm">')[1].split("</p>")[0]
    result = re.search(r"<b>([^<]+)<abbr", text.split('<li class="dl rs">')[1])
    assert result
    assert own.endswith(f"= {result[1]}")
    assert heading(text).endswith(f"{result[1]}.")


def test_no_page_asks_for_what_its_own_form_says() -> None:
    for found in functions().values():
        assert not {slot.key for slot in found.takes} & {*OURS, "measures", "decimal"}


def test_the_bolt_is_its_own_form(pages: TestClient) -> None:
    text = page(pages, "bolt-window", {**BOLT, "book": "570 N·m"})
    drawing = text.split('<div class="dw">')[1].split("</form>")[0]
    for key in ("thread", "head", "grease", "engaged", "clamp", "housing"):
        assert f' name="{key}"' in drawing
    assert '<option value="grey iron 250" selected>' in drawing, "iron 250 is what the trade calls grey iron 250"
    set_to, span = re.search(r'<output class="re"><b>([^<]+)</b><span>([^<]+)</span>', drawing).groups()  # type: ignore[union-attr]
    assert heading(text) == f"With anti-seize set {set_to}: {span} holds."
    assert "may break the bolt" in text
    assert "breaks at" in text


def test_where_nothing_is_safe_no_torque_is_shown(pages: TestClient) -> None:
    for more in ({"clamp": "150 kN"}, {"grease": "rust"}, {"mark": "300 N·m"}):
        text = page(pages, "bolt-window", {**BOLT, **more})
        assert "nothing is safe to set" in heading(text)
        assert "set nothing" in text
        assert " holds." not in heading(text)


def test_a_book_torque_that_cannot_be_read_is_asked_again(pages: TestClient) -> None:
    text = page(pages, "bolt-window", {**BOLT, "book": "570"})
    assert 'id="book-wrong"' in text
    assert 'name="book" id="f-book" form="typed" value="570"' in text
    assert heading(text) == headline(ask("bolt-window", BOLT)), "the window stands all the same"


def test_metric_or_us(pages: TestClient) -> None:
    text = page(pages, "bolt-window", {**BOLT, "measures": "us"})
    assert heading(text) == headline(ask("bolt-window", BOLT, "us"))
    assert re.search(r"set \d+\u00a0lbf·ft: \d+ to \d+ holds", heading(text))
    assert 'placeholder="5 lbf·ft"' in text
    assert "--measures=us" in text
    assert "US" in text.split("units</dt>")[1][:40]
    fresh = page(pages, "preload-from-nut-factor", {"measures": "us"})
    assert re.search(r'name="torque"[^>]* value="\d+ lbf·ft"', fresh)
    assert "Show metric" in fresh


def test_a_yard_that_writes_commas_gets_commas(tmp_path: Path) -> None:
    where = tmp_path / "yard"
    store.lay_out(where, store.DEMO)
    row = (where / "yard.toml").read_text(encoding="utf-8")
    (where / "yard.toml").write_text(
        re.sub(r"(?m)^decimal = .*$", 'decimal = ","', row) if "decimal" in row else 'decimal = ","\n' + row,
        encoding="utf-8",
    )
    commas = TestClient(make(where))
    text = page(commas, "preload-from-nut-factor", {})
    assert 'value="0,14"' in text
    assert "139,3" in heading(text)
    assert "121,4" in heading(page(commas, "preload-from-nut-factor", {**PLAIN, "nut-factor": "0,14"}))


def test_one_more_of_many_is_a_row_more(pages: TestClient) -> None:
    texts = texts_to_try(formula("sprung-contacts"))
    text = page(pages, "sprung-contacts", {**texts, "more": "contacts"})
    assert 'name="contacts.5.x"' in text
    assert heading(text) == headline(ask("sprung-contacts", texts)), "an empty row is no row"
    assert 'name="contacts.5.x"' not in page(pages, "sprung-contacts", texts)
    assert page(pages, "sprung-contacts", {**texts, "more": HOSTILE})


# --- nonsense: for every kind of argument, on the page and by HTTP, all of it kept and named

NONSENSE = ("", "x", "12 parsecs", "nan", "1e999", "-", "1,2,3", "5 5", "∞", "9" * 5000, HOSTILE, "±", "1 ± 1", "0/0")
KINDS: dict[str, tuple[str, str]] = {}
for _name, _found in functions().items():
    for _key, _slot in said.leaves(_found.takes, texts_to_try(_found)):
        if _key in texts_to_try(_found):
            KINDS.setdefault(f"{_slot.kind.name}{'s' if _slot.many else ''}", (_name, _key))


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_nonsense_for_every_kind_is_said_at_its_place(kind: str, pages: TestClient) -> None:
    name, key = KINDS[kind]
    good = texts_to_try(formula(name))
    for nonsense in NONSENSE:
        texts = {**good, key: nonsense}
        got = pages.get(f"/formulary/{name}?{urlencode(texts)}")
        data = pages.get(f"{HOME}/{name}?{urlencode(texts)}")
        assert got.status_code in (200, 400), f"{kind} {nonsense}"
        assert data.status_code in (200, 400, 422)
        assert (got.status_code == 200) == (data.status_code == 200), f"{kind} {nonsense}"
        assert "<script" not in got.text
        if got.status_code == 400:
            assert "Not worked out yet" in got.text
            assert all(row["what"] for row in data.json()["faults"])
        if nonsense in ("x", "12 parsecs", HOSTILE):
            assert got.status_code == 400, f"{kind} takes {nonsense}"
            assert key.split(".")[0] in {row["where"].split(".")[0] for row in data.json()["faults"]}
            assert f'id="{key}-wrong"' in got.text or 'role="alert"' in got.text


@pytest.mark.parametrize(
    ("texts", "place", "says"),
    [
        ({"torque": "340"}, "torque", "the unit is missing"),
        ({"torque": "340 bar"}, "torque", "bar is a pressure"),
        ({"torque": "-5 N·m"}, "torque", "it must be 0 N·m or more"),
        ({"nut-factor": "0.9"}, "nut-factor", "0.03 to 0.6"),
        ({"diameter": ""}, "diameter", "This is missing"),
        ({"diameter": "0 mm"}, "diameter", "more than 0"),
    ],
)
def test_what_is_wrong_stands_at_its_line_and_all_is_kept(
    texts: dict[str, str], place: str, says: str, pages: TestClient
) -> None:
    typed = {**PLAIN, **texts}
    text = page(pages, "preload-from-nut-factor", typed, 400)
    said_there = text.split(f'id="{place}-wrong">')[1].split("</p>")[0]
    assert says.replace("0 N·m or more", "at least 0") in re.sub(r"<[^>]+>", "", said_there) or says in said_there
    assert f'name="{place}" id="f-{place}" value="{typed[place]}"' in text
    assert re.search(rf'name="{place}"[^>]* aria-invalid="true"', text)
    for key, value in typed.items():
        assert f'name="{key}" id="f-{key}" value="{value}"' in text
    assert "rs no" in text, "no result is shown"


def test_a_choice_that_is_none_stays(pages: TestClient) -> None:
    text = page(pages, "bolt-window", {**BOLT, "grease": "butter"}, 400)
    assert '<option value="butter" selected>butter</option>' in text
    assert 'id="grease-wrong"' in text


@pytest.mark.parametrize("name", ["bolt-windw", "nope", "<script>", "a" * 300])
def test_a_name_that_is_not_there_gets_the_list_and_the_nearest(name: str, pages: TestClient) -> None:
    got = pages.get(f"/formulary/{name}")
    assert got.status_code == 404
    assert "<script" not in got.text
    assert "/formulary/bolt-window" in got.text
    if name == "bolt-windw":
        assert "Did you mean bolt-window?" in heading(got.text)


def test_find(pages: TestClient) -> None:
    found = pages.get("/formulary?find=crib").text
    assert "crib-build" in found
    assert "/formulary/torque-split" not in found
    nothing = pages.get(f"/formulary?{urlencode({'find': HOSTILE})}")
    assert nothing.status_code == 200
    assert "<script" not in nothing.text
    assert "No formula speaks of" in heading(nothing.text)
