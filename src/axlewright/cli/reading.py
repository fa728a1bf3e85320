"""reading: what was read at a step, a step that was done, a hold passed, a paper typed back, an after-check made."""

from __future__ import annotations

import json
from argparse import Namespace
from collections.abc import Callable, Iterable
from typing import Any

from axlewright import desk
from axlewright.cli import tables, yards
from axlewright.desk.rows import card_said
from axlewright.desk.tables import readings_table
from axlewright.plan.in_hand.worked import Taken, Worked, worked
from axlewright.trade.steps_read import steps
from axlewright.yard import Beside, Change, Fault, Faults, Trouble, Yard, closest
from axlewright.yard.card_values import DONE, UNDONE, asked_at, look_of

NAME, VALUE = 16, 18  # letters of the first columns
DOWN = "set-down"
SAID = {"go on": "go on", "ask": "lower and ask", "now": "LOWER NOW"}
AROUND = 6  # steps that are listed from where it stands


def run(args: Namespace) -> int:
    place, now = yards.opened(args), yards.now(args)
    yard = place.read()
    values = yards.answers(args.values)
    photo = yards.photo(args)
    for deed in deeds(args, yard, values, now):
        yard, _ = desk.carry_out(place, _with(deed, photo))
    trouble = yard.trouble(args.trouble)
    stands = worked(yard, trouble)
    if tables.is_asked(args):
        tables.write(args, readings_table(yard, trouble), yard)
    if args.json:
        print(json.dumps(card_said(yard, trouble, stands), ensure_ascii=False, indent=1))
    elif not args.to:
        print("\n".join(told(yard, trouble, stands, values, quiet=args.quiet)))
    return 0


Doing = Callable[[Yard], Change]


def deeds(args: Namespace, yard: Yard, values: dict[str, str], now: desk.Now) -> Iterable[Doing]:
    """What was asked for, as deeds: the card begun, the paper typed back, or readings, steps, set-down and looks in turn."""
    on, shared = yards.day(args), {"trouble": args.trouble, "on": yards.day(args)}
    if args.begin:
        begin = desk.typed(desk.BeginCard, yard, shared)
        yield lambda standing: desk.begin_card(standing, begin, now)
    if args.typed_back:
        fields = {
            "values": values,
            "revision": args.revision,
            "up_to": args.up_to,
            "seen_by": args.seen_by,
            "time": args.time,
        }
        paper = desk.typed(desk.TypeBack, yard, {**shared, **fields})
        yield lambda standing: desk.type_back(standing, paper, now)
        return
    sorts = sorted_out(values)
    if sorts["readings"]:
        fields = {"values": sorts["readings"], "taken": "command", "seen_by": args.seen_by, "time": args.time}
        take = desk.typed(desk.Take, yard, {**shared, **fields})
        yield lambda standing: desk.take_reading(standing, take, now)
    for name, said in sorts["steps"].items():
        fields = {"step": name, "seen_by": args.seen_by, "time": args.time, "taken": "command"}
        step = desk.typed(desk.DoStep, yard, {**shared, **fields})
        yield _step(step, now, undo=said.casefold() == UNDONE)
    if sorts["down"]:
        down = desk.typed(desk.SetDown, yard, {**shared, **clocks(args, yard, sorts["down"][DOWN])})
        yield lambda standing: desk.set_down(standing, down, now)
    for name, said in sorts["looks"].items():
        clock = "threshing" if args.threshing else None
        fields = {"look": name, "hours": args.clock, "clock": clock, "taken": "command", **shown(name, said)}
        look = desk.typed(desk.LookAfter, yard, {"trouble": args.trouble, "on": on, **fields})
        yield _look(look, now)


def _with(deed: Doing, photo: Beside | None) -> Doing:
    return lambda standing: desk.with_photo(deed(standing), photo)


def _step(step: desk.DoStep, now: desk.Now, *, undo: bool) -> Doing:
    return lambda standing: (desk.undo_step if undo else desk.do_step)(standing, step, now)


def _look(look: desk.LookAfter, now: desk.Now) -> Doing:
    return lambda standing: desk.do_after_check(standing, look, now)


def clocks(args: Namespace, yard: Yard, said: str) -> dict[str, str]:
    """Both clocks at set-down: the engine's as typed, the other with --clock; one alone where the machine has only that."""
    machine = yard.machine(yard.trouble(args.trouble).corner.machine)
    first = "engine" if "engine" in machine.clocks else "threshing"
    return {first: said, **({"threshing": args.clock} if args.clock and first == "engine" else {})}


def sorted_out(values: dict[str, str]) -> dict[str, dict[str, str]]:
    """Names by what they are of: readings, steps that were done, after-checks, the clock at set-down.

    Raises:
        Faults: a name that is none of them
    """
    rows = steps()
    known = {name for task in rows.task for name in asked_at(task)}
    found: dict[str, dict[str, str]] = {"readings": {}, "steps": {}, "looks": {}, "down": {}}
    faults = []
    for name, value in values.items():
        if name in rows.task and (value.casefold() in (DONE, UNDONE) or name not in known):
            if value.casefold() not in (DONE, UNDONE):
                faults.append(Fault(name, f"{value} does not say whether it was done.", f"Write {name}={DONE}"))
            found["steps"][name] = value
        elif name in known:
            found["readings"][name] = value
        elif look_of(name):
            found["looks"][name] = value
        elif name == DOWN:
            found["down"][name] = value
        else:
            near = closest(name, [*known, *rows.task, *(row.id for row in rows.after_checks), DOWN])
            faults.append(Fault(name, f"There is no reading, step or after-check {name}.", near))
    if faults:
        raise Faults(*faults)
    return found


def shown(look: str, said: str) -> dict[str, Any]:
    """What an after-check showed: a grade for each finding that it gives, parted by commas, or one for all; else a word."""
    row = look_of(look)
    assert row
    if not row.finds:
        return {"says": said}
    grades = [part.strip() for part in said.split(",")]
    if len(grades) == 1:
        grades *= len(row.finds)
    return {"found": dict(zip(row.finds, grades, strict=False))}


def told(yard: Yard, trouble: Trouble, stands: Worked | None, values: dict[str, str], *, quiet: bool) -> Iterable[str]:
    """Where the card stands, and what each reading just typed says."""
    if stands is None:
        yield f"No step card was begun for trouble {trouble.number}. Begin it: axlewright reading {trouble.number} --begin"
        return
    for name in values:
        if name in stands.taken:
            yield line(stands.taken[name])
    done = sum(step.task.id in stands.done for step in stands.cards[""])
    if not quiet:
        count = len(stands.cards[""])
        yield f"Step card {stands.card.revision}, trouble {trouble.number}: {stands.job.title}, {done} of {count} done."
    if stands.now is None:
        running = [check.look for check in yard.after_checks if check.trouble == trouble.number]
        left = "" if running else f" Write the clock: axlewright reading {trouble.number} {DOWN}=HOURS"
        yield f"Every step is done.{left}" + (f" After-checks run: {', '.join(running)}." if running else "")
        return
    yield from ahead(stands)


def line(taken: Taken) -> str:
    says = SAID[taken.says] if taken.says else "kept"
    return f"{taken.reading:{NAME}} {taken.typed:{VALUE}} {says}"


def ahead(stands: Worked) -> Iterable[str]:
    """The step at hand, what it waits for, and those that follow."""
    assert stands.now
    shown_steps = stands.cards[""]
    first = shown_steps.index(stands.now)
    for number, step in enumerate(shown_steps[first : first + AROUND], first + 1):
        hold = "  HOLD" if step.task.hold else ""
        yield f"{'>' if step is stands.now else ' '} {number:3} {step.task.id:{NAME}} {step.task.title}{hold}"
        if step is stands.now:
            for want in stands.wants(step.task.id):
                name = want.reading.replace("_", "-")
                yield f"      {f'{name}: ' if name else ''}{want.words}"
