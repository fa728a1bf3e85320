"""The last change is taken back: what it brought counts no longer, what it replaced stands as before. Nothing is wiped out."""

from __future__ import annotations

from collections.abc import Iterable

from axlewright.desk.now import Now, may, record
from axlewright.yard import Change, Fault, Faults, Made, Record, TakenBack, Yard, mistakes


@may("owner", "helper")
def take_back(yard: Yard, made: Made | None, now: Now) -> Change:
    """Take the last change back. Taken back again, it counts once more. Frozen packs and photos stay where they are.

    Args:
        yard: as it stands
        made: the last change, as the store has it
        now: the time, and who does it

    Raises:
        Faults: nothing was changed here yet; it was changed past us since; something rests on it
    """
    if made is None or not (made.added or made.before):
        raise Faults(Fault("change", "There is no change to take back.", "Nothing was written to this yard yet."))
    kept = {(one.what, one.id): one for one in yard.records}
    later = [one for one in made.after if kept[one.what, one.id].body() != one.body()]
    if made.edited or later:
        what = "The yard was changed past this program since, in its files."
        raise Faults(Fault("change", what, "Put it right there, or by what you would have written."))
    on, given = yard.today(now.at.date()), now.new_id()
    at = now.after(one.at for one in (*yard.taken_back, *yard.gone) if isinstance(one, TakenBack))
    backs = [
        record(TakenBack, id=f"{given}-{n}", sort=one.what, of=one.id, on=on, who=now.who, at=at)
        for n, one in enumerate(made.added, 1)
    ]
    change = Change((*backs, *made.before))
    resting = _new(yard, yard.with_(change), now)
    if resting:
        what = f"Something rests on it: {resting[0].where}. {resting[0].what}"
        raise Faults(Fault("change", what, "Correct that first, or write down what is right now."))
    return change


def _new(before: Yard, after: Yard, now: Now) -> list[Fault]:
    """The mistakes that would come in."""
    there = set(mistakes(before, now.at.date()))
    return [fault for fault in mistakes(after, now.at.date()) if fault not in there]


def told(made: Made) -> str:
    """What a change was, in a few words: `2 findings, a trouble; clock bramble-1 changed`."""
    words = _counted([*made.added])
    words += [f"{one.what} {one.id} changed" for one in made.after]
    return ", ".join(words) or ", ".join(made.beside)


NAMES = {"taken back": "taking-back", "clock": "clock reading", "title": "title block"}


def _counted(records: Iterable[Record]) -> list[str]:
    many: dict[str, int] = {}
    for one in records:
        name = NAMES.get(one.what, one.what)
        many[name] = many.get(name, 0) + 1
    return [
        f"{'an' if what[0] in 'aeiou' else 'a'} {what}" if n == 1 else f"{n} {_plural(what)}"
        for what, n in many.items()
    ]


def _plural(what: str) -> str:
    return {"taking-back": "takings-back"}.get(what, f"{what}s")
