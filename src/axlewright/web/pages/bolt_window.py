"""The greased-bolt window's page: values typed on the bolt, the torque one more dimension over its head."""

from __future__ import annotations

from typing import Any

from axlewright.formulary import said
from axlewright.formulary.ask import ask, edge, safe
from axlewright.formulary.call import Answer, given_by
from axlewright.formulary.said import figure, spelled, with_unit
from axlewright.formulary.slots import Slot
from axlewright.render import html
from axlewright.render.show import Show, Words
from axlewright.sheets.figures import formulary as figures
from axlewright.web.typed import Typed, field
from axlewright.yard import Faults

BLANK = ("\u00a0",)
LINE = ("\u00a0" * 26,)  # the thread's dimension goes on beyond the bolt, so that there is room to type
# where each value is typed, in per cent of the drawing: left, width, and how far above the middle of its place
ROOM: dict[str, tuple[float, float]] = {
    "head": (42.0, 16.0),
    "grease": (0.0, 31.0),
    "clamp": (78.2, 21.8),
    "engaged": (73.6, 22.0),
    "housing": (0.0, 27.0),
    "thread": (61.0, 28.0),
}
UP = {"thread": 1.2, "clamp": 0.6, "grease": 1.8}
SIDE = {"head": "middle", "engaged": "end"}
NOT_ON_IT = {"wrench": "how far it is to be trusted", "mark": "step of its scale"}  # typed under the drawing
UNSAID = {"housing": "unknown", "wrench": "as checked"}  # what stands where nothing is chosen
DEPTH = 1.35  # diameters of thread drawn where none can be read

SAME = ("thread", "head", "grease", "wrench")  # what the book's torque acts on
LIMITS = (("breaks", "breaks"), ("yields", "yields"))  # of a book's torque, the worse first
FIRST = {
    "the bolt": "The bolt goes before the housing: it can be replaced.",
    "the housing thread": "The housing thread goes before the bolt: it wants more thread engaged, or an insert.",
    "one or the other": "One or the other goes first: a strong bolt in a weak casting strips it. More thread engaged helps.",
}


def view(typed: Typed, show: Show) -> dict[str, Any]:
    """What the page shows besides what all functions show."""
    slots = {slot.name: slot for slot in typed.found.takes}
    drawing = figures.bolt(drawn(typed))
    picture = html.picture(drawing, Words(show, {}), "bolt")
    middles = {ask["name"]: ask["top"] + ask["high"] / 2 for ask in picture["asks"]}
    asks = [
        {
            "key": key,
            "words": slots[key].words,
            "left": left,
            "wide": wide,
            "middle": round(middles[key] - UP.get(key, 0.0), 2),
            "side": SIDE.get(key, "start"),
            **place(typed, slots[key]),
        }
        for key, (left, wide) in ROOM.items()
    ]
    beneath = [{"key": key, "words": words, **place(typed, slots[key])} for key, words in NOT_ON_IT.items()]
    answer = typed.answer
    return {
        "heading": "greased-bolt window",
        "svg": picture["svg"],
        "says": says(typed),
        "asks": asks,
        "beneath": beneath,
        "set_to": set_to(answer, typed) if answer else None,
        "took": took(answer, typed) if answer else [],
        "breaks": breaks(answer, typed) if answer else None,
        "edges": edges(answer, typed) if answer else "",
        "doubts": str(answer["doubts"].si) if answer else "",
        "book": book(typed),
    }


def place(typed: Typed, slot: Slot) -> dict[str, Any]:
    """A place to type in."""
    made = field(typed, slot, slot.key, None)
    made["options"] = [
        (value, short(words) if value else UNSAID.get(slot.key, words)) for value, words in made["options"]
    ]
    return made


def short(words: str) -> str:
    """A name that fits beside the drawing: iron 250."""
    return words.replace("grey iron", "iron").replace("ductile iron", "ductile").replace("mild steel", "steel")


def drawn(typed: Typed) -> figures.Bolt:
    """The bolt with blanks where the page types."""
    return figures.Bolt(
        head=BLANK,
        thread=LINE,
        engaged=BLANK,
        grease=(BLANK, ("threads, head",)),
        housing=BLANK,
        clamp=BLANK,
        torque=BLANK if typed.answer and safe(typed.answer) else (),
        depth=depth(typed),
    )


def depth(typed: Typed) -> float:
    """Engaged length in diameters."""
    try:
        given = given_by(typed.found, typed.given)
        return float(given["engaged"] / given["thread"].diameter)
    except (Faults, TypeError):  # what cannot be read, or is typed as a range, is drawn as usual
        return DEPTH


def says(typed: Typed) -> str:
    """The drawing in a sentence."""
    told = "; ".join(f"{key} {text}" for key, text in typed.given.items())
    return f"A bolt through a flange into a housing. Typed: {told}."


def set_to(answer: Answer, typed: Typed) -> dict[str, Any]:
    """The result over the head: what to set, or that nothing is."""
    low, high = edge(answer["low"], "up"), edge(answer["high"], "down")
    span = f"{figure(low, 6, typed.decimal)} to {figure(high, 6, typed.decimal)}"
    if safe(answer):
        return {"number": spelled(answer["set_to"], typed.decimal), "words": span, "safe": True}
    least = with_unit(figure(low, 6, typed.decimal), answer["low"].unit)
    most = with_unit(figure(high, 6, typed.decimal), answer["high"].unit)
    return {"number": "set nothing", "words": f"wants {least}, bears {most}", "safe": False}


def took(answer: Answer, typed: Typed) -> list[tuple[str, str, str]]:
    """What went into it: symbol, words, value."""

    def value(name: str, digits: int = 4) -> str:
        return spelled(answer[name], typed.decimal, digits)

    rows = [
        ("d₂", "pitch diameter", value("pitch_diameter")),
        ("λ", "lead angle", value("lead", 3)),
        ("Dm", "mean under the head", value("bearing_diameter", 3)),
        ("µ", f"likely, from K {value('nut_factor', 3)}", value("friction", 3)),
        ("K", "5 to 95 of a hundred", f"{value('nut_factor_low', 2)} to {value('nut_factor_high', 2)}"),
        ("", "thread that carries", value("engagement", 3)),
    ]
    if safe(answer):
        slack, tight = (bare(value(f"preload_{end}", 3)) for end in ("low", "high"))
        rows.append(("F", f"at {value('set_to')}", f"{value('preload', 3)} ({slack} to {tight})"))
    return rows


def bare(said_: str) -> str:
    """A number without its unit, where the next one has it."""
    return said_.split(said.STAY)[0]


def breaks(answer: Answer, typed: Typed) -> dict[str, Any]:
    """What breaks first."""
    rows = [
        (words, spelled(answer[name], typed.decimal, 3))
        for name, words in (
            ("bolt_yields", "bolt yields"),
            ("bolt_breaks", "bolt breaks"),
            ("housing_strips", "housing thread strips, likely"),
            ("housing_strips_low", "at its careful end"),
        )
    ]
    return {"rows": rows, "first": FIRST[str(answer["first"].si)], "bolt": answer["first"].si == "the bolt"}


def edges(answer: Answer, typed: Typed) -> str:
    """What the two edges are for."""
    clamp = next(value for value in answer.inputs if value.name == "clamp")
    return (
        f"Lower edge: the slackest bolt keeps {spelled(clamp, typed.decimal, 3)}. Upper edge: {answer['high_by'].si}, at the"
        f" tightest; pull and twist together, the twist counted elastic. It may break from"
        f" {spelled(answer['may_break'], typed.decimal, 3)}."
    )


def book(typed: Typed) -> dict[str, Any]:
    """What the book's torque does to this bolt, if one is typed."""
    out: dict[str, Any] = {"text": typed.book, "wrong": None, "rows": [], "says": ""}
    if not typed.book or typed.answer is None:
        return out
    same: dict[str, str] = {key: text for key, text in typed.given.items() if key in SAME}
    try:
        got = ask("book-torque", {"torque": typed.book, **same}, typed.measures, typed.decimal)
    except Faults as bad:
        return out | {"wrong": bad.faults[0]}
    high = spelled(got["pull_high"], typed.decimal, 3)
    over = next(
        (
            f"; {word} at {bare(spelled(got[name], typed.decimal, 3))}"
            for name, word in LIMITS
            if got["pull_high"].si >= got[name].si
        ),
        "",
    )
    rows = [
        ("lowest pull", spelled(got["pull_low"], typed.decimal, 3), False),
        ("likely", spelled(got["pull"], typed.decimal, 3), False),
        ("highest", high + over, bool(over)),
    ]
    return out | {"rows": rows, "says": str(got["says"].si)}
