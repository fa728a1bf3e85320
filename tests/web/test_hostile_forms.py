"""Every form of the app, found by walking its pages, is sent what nobody should type: it is said, kept, and stored once."""

from __future__ import annotations

import re
import warnings
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import urljoin, urlsplit

import html5lib
import pytest
from starlette.testclient import TestClient

from axlewright import store
from axlewright.web.app import make
from axlewright.web.pages import due

NAMESPACE = "{http://www.w3.org/1999/xhtml}"
MOST_PAGES = 25
SEEDS = (
    *("/yard/machine", "/yard/drive", "/yard/design", "/likes"),
    *("/trouble/5", "/trouble/6", "/trouble/8", "/trouble/6/step", "/trouble/6/look/plug", "/trouble/6/ask/choice"),
    *("/trouble/5/after/wheel-nuts", "/drive/bramble-left", "/yard", "/shelf", "/bench", "/season", "/due", "/"),
)
SAME = r"(?<=/trouble/)(?:[^568]|\d\d+).*|/choice.*|(?<=/machine/)[\w-]+|(?<=/drive/)[\w-]+|(?<=/formulary/).+|(?<=/pack/)\w+|(?<=/look/).+|(?<=/ask/).+|(?<=/after/).+|(?<=/blank/).+"
"""Parts of an address that differ between pages of one sort."""
HOSTILE = {
    "nonsense": "no such thing",
    "script": '"><script>alert(1)</script>',
    "sql": "'; DROP TABLE finding; --",
    "emoji": "\U0001f69c\U0001f9d1\u200d\U0001f527 \U0001d11e",
    "right to left": "\u0645\u0632\u0631\u0639\u0629",
    "turned round": "4730\u202e0374",
    "a megabyte": "x" * 900_000,
    "number": "-1e999",
}


@dataclass(frozen=True)
class Form:
    """A form as it stands on a page: where it goes, what stands in it, and what may be typed."""

    page: str
    action: str
    given: tuple[tuple[str, str], ...]
    typed: tuple[str, ...]
    chosen: tuple[str, ...] = field(default=())

    @property
    def shape(self) -> str:
        return f"{re.sub(r'[0-9a-f]{16}|[0-9]+', '#', self.action)} {sorted({*self.typed, *self.chosen})}"


def walked(client: TestClient) -> Iterator[tuple[str, str]]:
    """Pages that are reached from the first one, one of each shape of address."""
    ahead, seen = [*SEEDS], set[str]()
    while ahead and len(seen) < MOST_PAGES:
        at = ahead.pop(0)
        shape = re.sub(SAME, "#", at.partition("?")[0])
        if shape in seen:
            continue
        seen.add(shape)
        got = client.get(at)
        if got.status_code != 200 or not got.headers["content-type"].startswith("text/html"):
            continue
        yield at, got.text
        for link in re.findall(r'href="(/[^"#]*)', got.text):
            path = link.replace("&amp;", "&")
            if not path.startswith("/style/") and "." not in path.partition("?")[0].rpartition("/")[2]:
                ahead.append(path)


def forms_of(page: str, text: str) -> Iterator[Form]:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        tree = html5lib.parse(text)
    for one in tree.iter(f"{NAMESPACE}form"):
        if one.get("method", "get").lower() != "post":
            continue
        given, typed, chosen = [], [], []
        for at in one.iter():
            name, kind = at.get("name"), at.get("type", "text")
            if not name:
                continue
            if at.tag == f"{NAMESPACE}select":
                options = list(at.iter(f"{NAMESPACE}option"))
                first = next((o for o in options if o.get("selected") is not None), options[0] if options else None)
                given.append((name, "" if first is None else first.get("value", first.text or "")))
                chosen.append(name)
            elif at.tag == f"{NAMESPACE}textarea" or (
                at.tag == f"{NAMESPACE}input" and kind in {"text", "search", "number"}
            ):
                typed.append(name)
            elif at.tag == f"{NAMESPACE}input" and (kind == "hidden" or at.get("checked") is not None):
                given.append((name, at.get("value", "")))
                chosen += [name] if kind != "hidden" else []
        action = urlsplit(urljoin(page, one.get("action") or page)).path
        yield Form(page, action, tuple(given), tuple(dict.fromkeys(typed)), tuple(dict.fromkeys(chosen)))


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    where = tmp_path_factory.mktemp("yard") / "low meadow"
    store.lay_out(where, store.DEMO)
    return where


@pytest.fixture(scope="module")
def client(folder: Path) -> Iterator[TestClient]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(due, "MOST_AT_ONCE", 0)  # dates to decide by are reckoned behind a page, for half a minute here
        yield TestClient(make(folder), follow_redirects=False)


@pytest.fixture(scope="module")
def forms(client: TestClient) -> dict[str, Form]:
    found: dict[str, Form] = {}
    for page, text in walked(client):
        for form in forms_of(page, text):
            found.setdefault(form.shape, form)
    return found


def sent(client: TestClient, form: Form, said: str, *, chosen: bool = False) -> tuple[int, str]:
    data: dict[str, list[str]] = {}
    for name, value in form.given:
        data.setdefault(name, []).append(said if chosen and name in form.chosen else value)
    data |= {name: [said] for name in form.typed}
    got = client.post(form.action, data=data)
    return got.status_code, got.text


def test_the_walk_finds_the_forms_of_every_room(forms: dict[str, Form]) -> None:
    actions = {form.action.rstrip("/") for form in forms.values()}
    assert {
        "",
        "/yard",
        "/due",
        "/shelf",
        "/bench",
        "/season",
        "/likes",
        "/yard/machine",
        "/yard/drive",
        "/yard/design",
    } <= actions
    assert any(re.fullmatch(r"/trouble/\d+/settle", action) for action in actions)
    assert len(forms) >= 14


@pytest.mark.parametrize("what", HOSTILE)
def test_every_form_bears_it(client: TestClient, folder: Path, forms: dict[str, Form], what: str) -> None:
    """Never an error of ours; what was refused is on the page as it was typed, as words; nothing is half kept."""
    said = HOSTILE[what]
    for form in forms.values():
        if not form.typed:
            continue
        status, text = sent(client, form, said)
        assert status in {200, 303, 400, 404, 409, 413}, f"{form.action}: {status}"
        assert "<script>alert" not in text, form.action
        if status == 400 and len(said) < 100 and what not in {"turned round"}:
            escaped = (
                said.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace('"', "&#34;")
                .replace("'", "&#39;")
            )
            assert escaped in text, f"{form.action} lost what was typed"
            assert re.search(r'-wrong"|role="alert"', text), f"{form.action} does not say what is wrong"
    assert store.at(folder).read()  # still a yard that can be read


def test_every_form_bears_choices_that_were_never_offered(client: TestClient, forms: dict[str, Form]) -> None:
    for form in forms.values():
        status, text = sent(client, form, "<i>none of these</i>", chosen=True)
        assert status in {200, 303, 400, 404, 409}, f"{form.action}: {status}"
        assert "<i>none of these</i>" not in text, form.action


def test_every_form_bears_nothing_at_all(client: TestClient, forms: dict[str, Form]) -> None:
    for form in forms.values():
        assert client.post(form.action, data={}).status_code in {200, 303, 400, 404, 409}, form.action


def test_a_form_sent_twice_is_kept_once(client: TestClient, folder: Path, forms: dict[str, Form]) -> None:
    for form in forms.values():
        sent(client, form, "7")
        once = store.at(folder).read().records
        sent(client, form, "7")
        assert store.at(folder).read().records == once, f"{form.action} sent twice is kept twice"


def test_more_than_a_form_holds_is_refused_before_it_is_read(client: TestClient) -> None:
    assert client.post("/yard/machine", data={"name": "x" * 1_100_000}).status_code == 413
