"""The Formulary's pages and its operations: every function, nonsense for every kind of argument, the same number on all faces."""

from __future__ import annotations

import json
import math
import re
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

import html5lib
import pytest
from fastapi.openapi.models import OpenAPI
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from starlette.testclient import TestClient

from axlewright import store
from axlewright.formulary import formula, functions, names, said
from axlewright.formulary.ask import ask, headline
from axlewright.formulary.examples import texts_to_try
from axlewright.formulary.ranges import ranges
from axlewright.quantities.units import parse
from axlewright.web.api import si_unit
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


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> TestClient:
    where = tmp_path_factory.mktemp("yard") / "low meadow"
    store.lay_out(where, store.DEMO)
    return TestClient(make(where), follow_redirects=False)


@pytest.fixture(scope="module")
def told(pages: TestClient) -> dict[str, Any]:
    """The description of all operations."""
    got: dict[str, Any] = pages.get("/openapi.json").json()
    return got


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
        re.sub(r"(?m)^decimal = .*$", 'decimal = ","', row) if "decimal" in row else row + 'decimal = ","\n',
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


# --- by HTTP


@pytest.mark.parametrize("name", names())
def test_the_same_number_on_every_face(name: str, pages: TestClient) -> None:
    """By address and by JSON, as texts and as bare SI numbers."""
    found, texts = formula(name), texts_to_try(formula(name))
    want = json.loads(json.dumps(said.answer_data(ask(name, texts))))
    by_address = pages.get(f"{HOME}/{name}?{urlencode(texts)}")
    assert by_address.status_code == 200
    assert {k: v for k, v in by_address.json().items() if k != "says"} == want
    assert by_address.json()["says"] == headline(ask(name, texts))
    by_json = pages.post(f"{HOME}/{name}", json=nested(texts))
    assert by_json.json() == by_address.json()
    numbers = pages.post(f"{HOME}/{name}", json=nested(in_si(name, texts)))
    assert numbers.status_code == 200
    for key, value in numbers.json()["values"].items():
        same(value.get("si", value["value"]), want["values"][key].get("si", want["values"][key]["value"]))
    assert set(want["values"]) >= {
        said.name_of(s.name) for s in found.gives if s.form != "structure" and not found.many
    }


def same(got: Any, wanted: Any) -> None:
    if isinstance(wanted, list):
        assert len(got) == len(wanted)
        for one, other in zip(got, wanted, strict=True):
            same(one, other)
    elif isinstance(wanted, float):
        assert got == pytest.approx(wanted, rel=1e-9, abs=1e-12)
    else:
        assert got == wanted


def in_si(name: str, texts: dict[str, str]) -> dict[str, Any]:
    """Texts as bare numbers in SI, where they are quantities."""
    out: dict[str, Any] = dict(texts)
    for key, slot in said.leaves(formula(name).takes, texts):
        if slot.form in ("quantity", "whole") and key in texts and slot.kind.name != "yes-no":
            read = [parse(one, slot.kind).si for one in texts[key].split(";")]
            out[key] = [int(n) if slot.kind.name == "count" else n for n in read] if slot.many else read[0]
            if slot.kind.name == "count" and not slot.many:
                out[key] = int(read[0])
        elif slot.kind.name == "yes-no" and key in texts:
            out[key] = texts[key] == "yes"
    return out


def nested(texts: dict[str, Any]) -> Any:
    """Flat names as nested JSON: `legs.2.length` in the second of a list."""
    tree: dict[str, Any] = {}
    for key, value in texts.items():
        *path, last = key.split(".")
        at = tree
        for part in path:
            at = at.setdefault(part, {})
        at[last] = value
    return listed(tree)


def listed(tree: Any) -> Any:
    if not isinstance(tree, dict):
        return tree
    if tree and all(key.isdigit() for key in tree):
        return [listed(tree[key]) for key in sorted(tree, key=int)]
    return {key: listed(value) for key, value in tree.items()}


def test_every_kind_has_a_unit_for_bare_numbers() -> None:
    for found in functions().values():
        for key, slot in said.leaves(found.takes, {}):
            if slot.form == "quantity" and slot.kind.name != "yes-no":
                symbol = si_unit(slot.kind.name)
                assert parse(f"1 {symbol}".strip(), slot.kind).si == pytest.approx(1.0), key


@pytest.mark.parametrize(
    ("body", "status", "where"),
    [
        (b"", 400, "body"),
        (b"[]", 400, "body"),
        (b"null", 400, "body"),
        (b"{", 400, "body"),
        (b"\xff\xfe\x00", 400, "body"),
        (b"[" * 100_000, 400, "body"),
        (b'{"torque": NaN, "diameter": 0.02, "nut-factor": 0.14}', 400, "torque"),
        (b'{"torque": 1e999, "diameter": 0.02, "nut-factor": 0.14}', 400, "torque"),
        (b'{"torque": {"a": {"b": 1}}, "diameter": 0.02, "nut-factor": 0.14}', 400, "torque"),
        (b'{"torque": [1, 2], "diameter": 0.02, "nut-factor": 0.14}', 400, "torque"),
        (b'{"torque": null, "diameter": 0.02, "nut-factor": 0.14}', 400, "torque"),
        (b'{"torque": true, "diameter": 0.02, "nut-factor": 0.14}', 400, "torque"),
        (b'{"torque": 340, "diameter": 0.02, "nut-factor": 0.9}', 422, "nut-factor"),
        (b'{"torque": 340, "diameter": 0.02, "nut-factor": 0.14, "zap": 1}', 400, "zap"),
        (b'{"torque": 340, "diameter": 0.02, "nut-factor": 0.14, "measures": "us"}', 400, "measures"),
        (b'{"torque": "340 N\xc2\xb7m", "diameter": "20", "nut-factor": 0.14}', 400, "diameter"),
    ],
)
def test_mistakes_come_as_json_with_their_name(body: bytes, status: int, where: str, pages: TestClient) -> None:
    got = pages.post(f"{HOME}/preload-from-nut-factor", content=body)
    assert got.status_code == status
    assert where in {row["where"].split(".")[0] for row in got.json()["faults"]}


def test_other_mistakes_by_address(pages: TestClient) -> None:
    right = urlencode(PLAIN)
    at = f"{HOME}/preload-from-nut-factor"
    assert pages.get(f"{at}?{right}&torque=1").json()["faults"][0]["what"].startswith("It comes twice")
    assert pages.get(f"{at}?{right}&measures=imperial").status_code == 400
    assert pages.get(f"{at}?{right}&decimal=x").status_code == 400
    lost = pages.get(f"{HOME}/bolt-windw")
    assert lost.status_code == 404
    assert lost.json()["faults"][0]["right"] == "Did you mean bolt-window?"
    assert pages.post(f"{HOME}/nope", json={}).status_code == 404
    assert pages.get(f"{HOME}/nope/about").status_code == 404
    assert pages.get(at).status_code == 400, "without values all of them are missing"
    assert {row["where"] for row in pages.get(at).json()["faults"]} == set(PLAIN)
    assert pages.post(at, json=PLAIN, headers={"origin": "http://yard.example"}).status_code == 403


def test_a_comma_is_a_decimal_mark_where_it_is_said_so(pages: TestClient) -> None:
    at = f"{HOME}/preload-from-nut-factor"
    comma = pages.post(f"{at}?decimal=,", json={"torque": 340.125, "diameter": 0.125, "nut-factor": "0,125"})
    point = pages.post(at, json={"torque": 340.125, "diameter": 0.125, "nut-factor": 0.125})
    assert comma.json()["values"]["result"]["si"] == point.json()["values"]["result"]["si"]
    assert "," in comma.json()["says"]


def test_no_limit_is_null_and_said(pages: TestClient) -> None:
    """A hook behind the front castors never tips the hoist: there is no such number in JSON."""
    got = pages.get(f"{HOME}/hoist-loads?{urlencode(texts_to_try(formula('hoist-loads')))}").json()["values"]["margin"]
    assert got["value"] is None
    assert got["says"] == "no limit"


# --- the description


def test_openapi_has_every_function_as_its_own_operations(told: dict[str, Any]) -> None:
    OpenAPI.model_validate(told)
    text = json.dumps(told)
    for link in set(re.findall(r'"#/components/schemas/([^"]+)"', text)):
        assert link in told["components"]["schemas"]
    ids = re.findall(r'"operationId": "([^"]+)"', text)
    assert len(ids) == len(set(ids))
    for name, found in functions().items():
        for method in ("get", "post"):
            operation = told["paths"][f"{HOME}/{name}"][method]
            assert set(operation["responses"]) == {"200", "400", "422"}
            assert found.source in operation["description"]
            assert found.valid in operation["description"]
        body = told["paths"][f"{HOME}/{name}"]["post"]["requestBody"]["content"]["application/json"]["schema"]
        assert body["required"] == [slot.key for slot in found.takes if slot.needed]
        for slot in found.takes:
            place = body["properties"][slot.key]
            if slot.form == "quantity":
                assert place["x-unit"] == slot.kind.unit
            allowed = ranges(found).get(slot.name)
            if allowed and allowed.high is not None:
                assert place["anyOf"][0]["maximum"] == allowed.high
        asked = {one["name"] for one in told["paths"][f"{HOME}/{name}"]["get"]["parameters"]}
        assert {key for key, _ in said.leaves(found.takes, {})} <= asked


def fits(value: Any, schema: dict[str, Any], told: dict[str, Any]) -> bool:
    """Whether a value is of a schema: as much of JSON Schema as ours use."""
    if "$ref" in schema:
        return fits(value, told["components"]["schemas"][schema["$ref"].rsplit("/", 1)[1]], told)
    if "anyOf" in schema:
        return any(fits(value, one, told) for one in schema["anyOf"])
    if "const" in schema:
        return bool(value == schema["const"])
    if "enum" in schema and value not in schema["enum"]:
        return False
    kinds = schema.get("type", [])
    kinds = [kinds] if isinstance(kinds, str) else kinds
    is_a = {
        "object": isinstance(value, dict),
        "array": isinstance(value, list),
        "string": isinstance(value, str),
        "boolean": isinstance(value, bool),
        "null": value is None,
        "integer": isinstance(value, int) and not isinstance(value, bool),
        "number": isinstance(value, int | float) and not isinstance(value, bool),
    }
    if kinds and not any(is_a[kind] for kind in kinds):
        return False
    if isinstance(value, dict):
        known, more = schema.get("properties", {}), schema.get("additionalProperties", True)
        return set(schema.get("required", ())) <= value.keys() and all(
            fits(one, known[key], told)
            if key in known
            else more is True or (more is not False and fits(one, more, told))
            for key, one in value.items()
        )
    if isinstance(value, list):
        return all(fits(one, schema.get("items", {}), told) for one in value)
    if is_a["number"]:
        low, over, high = (
            schema.get("minimum", -math.inf),
            schema.get("exclusiveMinimum"),
            schema.get("maximum", math.inf),
        )
        return low <= value <= high and (over is None or value > over)
    return len(value) <= schema.get("maxLength", math.inf) if isinstance(value, str) else True


@pytest.mark.parametrize("name", names())
def test_what_is_sent_and_answered_is_as_described(name: str, pages: TestClient, told: dict[str, Any]) -> None:
    operation = told["paths"][f"{HOME}/{name}"]["post"]
    sent = nested(in_si(name, texts_to_try(formula(name))))
    assert fits(sent, operation["requestBody"]["content"]["application/json"]["schema"], told)
    got = pages.post(f"{HOME}/{name}", json=sent)
    assert fits(got.json(), operation["responses"]["200"]["content"]["application/json"]["schema"], told)
    wrong = pages.post(f"{HOME}/{name}", json={"zap": 1})
    assert wrong.status_code == 400
    assert fits(wrong.json(), operation["responses"]["400"]["content"]["application/json"]["schema"], told)


def test_the_list_and_about(pages: TestClient, told: dict[str, Any]) -> None:
    rows = pages.get(HOME)
    assert rows.json()["formulas"][0]["formula"] == "bolt-window"
    assert len(rows.json()["formulas"]) == len(functions())
    assert fits(
        rows.json(), told["paths"][HOME]["get"]["responses"]["200"]["content"]["application/json"]["schema"], told
    )
    for row in rows.json()["formulas"]:
        about = pages.get(f"{row['address']}/about").json()
        assert about["source"]
        assert about["valid"]
        assert about["example"]


SCALARS = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-(10**6), 10**6),
    st.floats(allow_nan=False, allow_infinity=False),
    st.text(max_size=20),
)
SLOW = ("crib-layouts", "whole-links", "hang")  # searches: tried by their examples above


@given(st.data())
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_anything_at_all_is_answered_in_json(pages: TestClient, data: st.DataObject) -> None:
    name = data.draw(st.sampled_from([n for n in names() if n not in SLOW]))
    sent = dict(nested(in_si(name, texts_to_try(formula(name)))))
    for key in data.draw(st.lists(st.sampled_from(sorted(sent)), max_size=3)):
        sent[key] = data.draw(SCALARS)
    got = pages.post(f"{HOME}/{name}", content=json.dumps(sent))
    assert got.status_code in (200, 400, 422), f"{name} {sent}"
    assert ("faults" in got.json()) == (got.status_code != 200)
