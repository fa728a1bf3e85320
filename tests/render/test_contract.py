"""What every renderer owes: each kind of block, a pack with all of them, both measures, what is typed as typed."""

from __future__ import annotations

import io
import re

import html5lib
import pypdf
import pytest

from axlewright.render import RENDERERS, Show, render
from axlewright.render import json as as_json
from axlewright.render.show import THIN, Words
from axlewright.render.text import LAID
from axlewright.sheets import Note, Pack, text
from render.packs import BASIS, BLOCKS, HOSTILE, TORQUE, hostile_sheet, kinds, pack, sheet, whole_sheet

NAMES = sorted(RENDERERS)
# words that a block of each kind must bring onto every face
BRINGS = {
    "note": "before",
    "values": "torque",
    "table": "header off",
    "figure": "Ringed: a guide bush.",
    "caution": "Nothing holds but the jack.",
    "hold": "A feeler must not enter.",
    "numbered": "white paper.",
    "boxes": "not known",
    "lines": "machine",
    "bands": "lower now",
    "dots": "used drive",
}


def flat(said: str) -> str:
    return re.sub(r"\s", "", said)


def said_by(name: str, one: Pack, show: Show) -> str:
    """The words of a rendered pack, without spaces."""
    data = render(one, show, name)
    match name:
        case "html":
            root = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(data, transport_encoding="utf-8")
            return flat("".join(root.find("body").itertext()))
        case "pdf":
            return flat("".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(data)).pages))
        case _:
            return flat(data.decode())


def test_every_kind_of_block_is_tried() -> None:
    assert set(kinds()) == set(BLOCKS) == set(BRINGS)
    assert set(LAID) == set(kinds())


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("kind", kinds())
def test_every_renderer_knows_every_block(name: str, kind: str) -> None:
    assert flat(BRINGS[kind]) in said_by(name, pack(sheet(BLOCKS[kind])), Show())


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("show", [Show(), Show(measures="us", decimal=",", paper="Letter")])
def test_a_pack_with_everything(name: str, show: Show) -> None:
    said = said_by(name, pack(whole_sheet(), whole_sheet()), show)
    for words in BRINGS.values():
        assert flat(words) in said


@pytest.mark.parametrize("name", ["html", "pdf", "text"])
@pytest.mark.parametrize("show", [Show(), Show(measures="us", decimal=",")])
def test_all_faces_carry_the_same_number(name: str, show: Show) -> None:
    want = Words(show, BASIS).plain(text(TORQUE)).replace(THIN, " ")
    assert flat(want) in said_by(name, pack(whole_sheet()), show)


@pytest.mark.parametrize("name", ["html", "pdf", "text"])
def test_what_is_typed_comes_out_as_typed(name: str) -> None:
    assert said_by(name, pack(hostile_sheet()), Show()).count(flat(HOSTILE)) >= 12


@pytest.mark.parametrize("name", NAMES)
def test_the_same_pack_gives_the_same_bytes(name: str) -> None:
    assert render(pack(whole_sheet()), Show(), name) == render(pack(whole_sheet()), Show(), name)


def test_json_gives_the_equal_pack_back() -> None:
    for one in (pack(whole_sheet()), pack(hostile_sheet()), pack()):
        assert as_json.read(render(one, Show(measures="us"), "json")) == one


def test_an_unknown_renderer_is_named() -> None:
    with pytest.raises(LookupError, match="nothing here renders slides: choose one of html, pdf, text, json"):
        render(pack(), Show(), "slides")


def test_a_terminal_is_not_steered() -> None:
    typed = "\x1b[2Jgone\x07\x9b1m"
    said = render(pack(sheet(Note(words=text(typed)))), Show(), "text").decode()
    assert "\ufffd[2Jgone\ufffd\ufffd1m" in said
    assert not re.search(r"[\x00-\x09\x0b-\x1f\x7f-\x9f]", said)


def test_a_terminal_is_78_wide() -> None:
    for show in (Show(), Show(measures="us")):
        for line in (
            render(pack(whole_sheet(), hostile_sheet("hands and feet out")), show, "text").decode().splitlines()
        ):
            assert len(line) <= 78
            assert line == line.rstrip()
