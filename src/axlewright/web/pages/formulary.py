"""The Formulary: every function by its name; values typed on dimension lines, the result one more dimension.

What is typed stands in the address, so an answer is a link. A function with a drawing of its own asks on the drawing.
"""

from __future__ import annotations

import re
from typing import Any, cast

from fastapi import APIRouter
from fastapi.responses import Response
from starlette.requests import Request

from axlewright.formulary import Formula, formula, said
from axlewright.formulary.ask import headline, result_of
from axlewright.formulary.examples import texts_to_try
from axlewright.formulary.families import Family, Group, about, beside, families, family_of, group_of, groups
from axlewright.formulary.ranges import ranges
from axlewright.quantities import Measures
from axlewright.render.show import Words
from axlewright.render.tree import Grower
from axlewright.sheets import TitleBlock
from axlewright.web import openapi
from axlewright.web.forms import LONGEST
from axlewright.web.page import day, page, show_for, store_of
from axlewright.web.pages import bolt_window
from axlewright.web.typed import OURS, Typed, answered, line, measured, places, shown
from axlewright.yard import Fault, Faults, Yard

router = APIRouter(prefix="/formulary", include_in_schema=False)
MANY = 60  # values on a page; a program gets all of them
DRAWN = {"bolt-window": bolt_window}  # functions with a drawing to type on


@router.get("")
def every(request: Request, find: str = "") -> Response:
    """The list of every function, or of those that have some words in name or title."""
    return listed(request, find.strip()[:80])


def listed(request: Request, find: str = "", lost: Fault | None = None) -> Response:
    words = find.casefold().split()
    shown = [narrowed for family in families() if (narrowed := narrow(family, words)).count]
    yard = store_of(request).read()
    count = sum(family.count for family in shown)
    if lost:
        answer = f"{lost.what} {lost.right}"
    elif not find:
        answer = f"Every formula of the house, {count} of them, each alone and by its name."
    else:
        answer = f"{count} of them speak of {find}." if count else f"No formula speaks of {find}."
    return page(
        "formulary_list.html",
        "Formulary",
        status=404 if lost else 200,
        title="Formulary",
        answer=answer,
        find=find,
        families=shown or families(),
        block=block(request, yard, "Formulary", "every family", show_for(yard).measures),
        said_name=said.said_name,
    )


def narrow(family: Family, words: list[str]) -> Family:
    def fits(one: Formula) -> bool:
        return all(word in f"{one.name} {said.said_name(one.name)} {one.title}".casefold() for word in words)

    groups = (Group(g.name, g.words, tuple(filter(fits, g.formulas))) for g in family.groups)
    return Family(family.name, tuple(group for group in groups if group.formulas))


@router.get("/{name}")
def one(request: Request, name: str) -> Response:
    """A function with what is typed in the address; without anything, with a set to try."""
    try:
        found = formula(name)
    except Faults as bad:
        return listed(request, lost=bad.faults[0])
    yard = store_of(request).read()
    typed = answered(typed_in(request, found, yard))
    drawn = DRAWN.get(found.name)
    view = {"heading": said.said_name(found.name), **(drawn.view(typed, show_for(yard)) if drawn else {})}
    module = found.function.__module__
    family = family_of(module)
    return page(
        "formulary_drawn.html" if drawn else "formulary.html",
        "Formulary",
        status=400 if typed.faults else 200,
        title=view["heading"],
        found=found,
        typed=typed,
        family=family,
        group=group_of(module),
        about=about(module),
        answer=sentence(typed),
        faults=typed.faults,
        loose=[fault for fault in typed.faults if fault.where not in places(typed)],
        lines=[line(typed, slot, slot.key, ranges(found).get(slot.name)) for slot in found.takes],
        result=result(typed),
        values=values(typed),
        own=own_line(typed),
        formulas=formulas_of(found.source),
        other="metric" if typed.measures == "us" else "us",
        command=said.command(found.name, {**typed.given, **measured(typed)}),
        data=f"{openapi.HOME}/{found.name}{typed.link(book='')}" if not typed.example else "",
        beside=[(n, said.said_name(n)) for n in beside(found.name)],
        groups=groups(),
        block=block(request, yard, view["heading"], f"formulary, {family}", typed.measures),
        **view,
    )


def typed_in(request: Request, found: Formula, yard: Yard) -> Typed:
    """What the address says."""
    likes = show_for(yard)
    texts = {key.strip().replace("_", "-").lower(): text[:LONGEST] for key, text in request.query_params.items()}
    ours = {key: texts.pop(key, "").strip() for key in OURS}
    measures = cast("Measures", ours["measures"] if ours["measures"] in ("metric", "us") else likes.measures)
    example = not texts
    if example:
        texts = said.as_typed(found, texts_to_try(found), measures, likes.decimal)
    return Typed(found, texts, example, measures, likes.decimal, ours["more"], ours["book"])


def sentence(typed: Typed) -> str:
    """The heading: the answer, or how many things to put right."""
    if typed.answer:
        return headline(typed.answer, typed.decimal)
    if typed.faults:
        count = len(typed.faults)
        return f"{count} thing{'s' if count > 1 else ''} to put right first."
    return f"{typed.found.title}."


def result(typed: Typed) -> dict[str, str] | None:
    """The first value, or how many there are: one more dimension."""
    if typed.answer is None:
        return None
    return {"words": typed.found.gives[0].words, "says": result_of(typed.answer, typed.decimal)}


def values(typed: Typed) -> dict[str, Any]:
    """All values, as many as a page holds; none where the result is all there is."""
    every = typed.answer.values if typed.answer else ()
    every = () if len(every) == 1 else every
    return {"rows": [shown(value, typed.decimal) for value in every[:MANY]], "left": max(len(every) - MANY, 0)}


def own_line(typed: Typed) -> str:
    """The formula's own line: its name with the values typed in it, and what it gives."""
    if typed.answer is None:
        return ""
    parts: dict[str, list[str]] = {}
    for value in typed.answer.inputs:
        slot = typed.found.slot(value.name.split(".")[0])
        parts.setdefault(said.said_name(slot.key), []).append(said.spelled(value, typed.decimal))
    inside = ", ".join(
        f"{name} {one[0]}" if len(one) == 1 else f"{name} ({', '.join(one)})" for name, one in parts.items()
    )
    return f"{said.said_name(typed.found.name)} ({inside}) = {result_of(typed.answer, typed.decimal)}"


def formulas_of(source: str) -> list[str]:
    """The formulas that a source names: what stands between its marks and has an equals sign."""
    return [part.strip() for part in re.split(r"; |, (?=[A-Za-z_']+ = )", source) if " = " in part]


def block(request: Request, yard: Yard, title: str, where: str, measures: Measures) -> dict[str, Any]:
    """The title block of a page."""
    made = TitleBlock(
        title=title[0].upper() + title[1:],
        corner=where,
        on=day(request, yard),
        yard=yard.title.name,
        made_by="typed here",
        measures="US" if measures == "us" else "metric",
    )
    return {"revisions": [], "block": Grower(Words(show_for(yard), {}), lambda *_: None).block_fields(made)}
