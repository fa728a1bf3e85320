"""Forms as typed: read once, kept as they were when something is wrong."""

from __future__ import annotations

import re
import uuid
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from starlette.datastructures import FormData
from starlette.requests import Request

from axlewright.yard import Fault

LONGEST = 4000  # letters in one field


@dataclass(frozen=True)
class Typed:
    """The fields of a form, each a list: a tick may come several times."""

    fields: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    def one(self, name: str, default: str = "") -> str:
        values = self.fields.get(name, ())
        return values[-1].strip()[:LONGEST] if values else default

    def having(self, name: str, value: str) -> Typed:
        """The same form with this in one field."""
        return Typed({**self.fields, name: (value,)})

    def all(self, name: str) -> tuple[str, ...]:
        return tuple(value.strip()[:LONGEST] for value in self.fields.get(name, ()) if value.strip())


async def typed(request: Request) -> Typed:
    """What was typed. Files are no part of our forms and are left out."""
    form: FormData = await request.form(max_files=0, max_fields=400)
    fields: dict[str, list[str]] = defaultdict(list)
    for name, value in form.multi_items():
        if isinstance(value, str):
            fields[name].append(value)
    return Typed({name: tuple(values) for name, values in fields.items()})


async def with_photo(request: Request, name: str = "photo") -> tuple[Typed, bytes]:
    """What was typed, and the photo that was sent with it; none where there is none."""
    async with request.form(max_files=1, max_fields=400) as form:
        fields: dict[str, list[str]] = defaultdict(list)
        for key, value in form.multi_items():
            if isinstance(value, str):
                fields[key].append(value)
        sent = form.get(name)
        data = b"" if sent is None or isinstance(sent, str) else await sent.read()
    return Typed({key: tuple(values) for key, values in fields.items()}), data


def by_field(
    faults: Iterable[Fault], known: Iterable[str], other: str, called: Mapping[str, str] | None = None
) -> dict[str, Fault]:
    """Each mistake at its field; one whose field is not on the page stands at `other`."""
    fields: set[str] = set(known)
    found: dict[str, Fault] = {}
    for fault in faults:
        where = (called or {}).get(fault.where, fault.where)
        found.setdefault(where if where in fields else other, on_page(fault))
    return found


def on_page(fault: Fault) -> Fault:
    """A mistake as a page says it: what would be written in a file under a key is typed into a field."""
    right = re.sub(r"^Write [\w-]+ = \"?([^\"]*?)\"?(?=\.?$)", r"Write it so: \1", fault.right)
    right = re.sub(r"^Type [\w-]+=\"?([^\"]*?)\"?(?=(, say)?\.$)", r"Type \1", right)
    return replace(fault, right=right)


def form_id(sent: str = "") -> str:
    """The id of a form: that which was sent if it is one, so that a form sent twice is kept once; else a new one."""
    return sent if re.fullmatch(r"[0-9a-f]{32}", sent) else uuid.uuid4().hex


def meant(fault: Fault | None) -> list[str]:
    """The clock reading that a slip may have meant: there is a button to take it."""
    found = re.search(r"Did you mean ([\d\s.,]*\d)", f"{fault.what} {fault.right}") if fault else None
    return [found[1]] if found else []
