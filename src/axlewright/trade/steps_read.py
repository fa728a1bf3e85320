"""How the rows of the work are read from steps/*.toml: every mistake of all files is said at once."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from axlewright.trade.rows import HERE
from axlewright.trade.steps import (
    AfterCheck,
    Apart,
    Band,
    Caution,
    Composition,
    Course,
    DriveKind,
    FloorRule,
    Glossary,
    Network,
    NotUsable,
    Refusal,
    Rules,
    Steps,
    Way,
    WayBack,
)
from axlewright.trade.steps_rules import mistakes

M = TypeVar("M", bound=BaseModel)


class _Reader:
    """Reads rows and keeps every mistake, so that all are said at once."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.mistakes: list[tuple[str, str]] = []

    def file(self, path: Path) -> dict[str, Any]:
        try:
            return tomllib.loads(path.read_text(encoding="utf-8"))
        except (tomllib.TOMLDecodeError, UnicodeDecodeError) as bad:
            self.mistakes.append((self.name(path), f"is no TOML: {bad}"))
            return {}

    def name(self, path: Path) -> str:
        return f"trade/steps/{path.relative_to(self.folder).as_posix()}"

    def row(self, where: str, model: type[M], given: dict[str, Any]) -> M | None:
        try:
            return model.model_validate(given)
        except ValidationError as bad:
            who = f"{where}, {given.get('id', given.get('use', 'no id'))}"
            self.mistakes += [(who, f"{'.'.join(map(str, e['loc'])) or 'row'}: {e['msg']}") for e in bad.errors()]
            return None

    def rows(self, where: str, model: type[M], table: dict[str, Any], key: str) -> tuple[M, ...]:
        source = {"source": table["source"]} if "source" in table else {}
        read = (self.row(f"{where}, [[{key}]]", model, {**source, **row}) for row in table.get(key, []))
        return tuple(row for row in read if row is not None)

    def networks(self) -> Iterator[Network]:
        for path in sorted(self.folder.glob("*.toml")):
            table, where = self.file(path), self.name(path)
            given = {
                **table,
                "tasks": [
                    {"network": table.get("id"), "source": table.get("source"), **t} for t in table.get("task", [])
                ],
            }
            given.pop("task", None)
            network = self.row(where, Network, given)
            if network and network.id != path.stem:
                self.mistakes.append((where, f"the network {network.id} stands in a file of another name"))
            if network:
                yield network


def read(folder: Path) -> Steps:
    """The rows of a folder: a network a file, all else in its folder `common`.

    Raises:
        NotUsable: a row has not the shape it must have; all such rows are named
    """
    r = _Reader(folder)
    networks = tuple(r.networks())
    common = folder / "common"
    t = {path.stem: r.file(path) for path in sorted(common.glob("*.toml"))}
    jobs, bands = t.get("jobs", {}), t.get("bands", {})
    words = r.row("trade/steps/common/words.toml", Glossary, t.get("words", {}))
    rules = r.row("trade/steps/common/rules.toml", Rules, t.get("rules", {}))
    where = "trade/steps/common"
    found: dict[str, Any] = {
        "cautions": r.rows(f"{where}/cautions.toml", Caution, t.get("cautions", {}), "caution"),
        "bands": r.rows(f"{where}/bands.toml", Band, bands, "band"),
        "compositions": r.rows(f"{where}/jobs.toml", Composition, jobs, "composition"),
        "drives": r.rows(f"{where}/jobs.toml", DriveKind, jobs, "drive"),
        "ways": r.rows(f"{where}/jobs.toml", Way, jobs, "way"),
        "courses": r.rows(f"{where}/jobs.toml", Course, jobs, "course"),
        "apart": r.rows(f"{where}/jobs.toml", Apart, jobs, "apart"),
        "ways_back": r.rows(f"{where}/ways_back.toml", WayBack, t.get("ways_back", {}), "way_back"),
        "refusals": r.rows(f"{where}/refusals.toml", Refusal, t.get("refusals", {}), "refuse"),
        "after_checks": r.rows(f"{where}/after_checks.toml", AfterCheck, t.get("after_checks", {}), "after_check"),
        "floor": r.rows(f"{where}/floor.toml", FloorRule, t.get("floor", {}), "floor"),
    }
    if r.mistakes or words is None or rules is None:
        raise NotUsable(tuple(r.mistakes))
    return Steps(
        networks=networks,
        words=words,
        rules=rules,
        figures=bands.get("figure", {}),
        givers=bands.get("by", {}),
        if_in_field=tuple(jobs.get("if_in_field", ())),
        **found,
    )


@cache
def steps() -> Steps:
    """All rows of the work, read once and held to the rules.

    Raises:
        NotUsable: a row or a rule is broken; all mistakes are named
    """
    found = read(HERE / "steps")
    wrong = mistakes(found)
    if wrong:
        raise NotUsable(wrong)
    return found
