"""The rules that the rows of the work must keep to (docs/engines/steps.md): every mistake is found, and named."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from axlewright.trade.networks import Job, jobs, weave
from axlewright.trade.steps import Composition, Steps, Task, Use

Mistake = tuple[str, str]


def mistakes(rows: Steps) -> tuple[Mistake, ...]:
    """Every mistake of the rows, as (where, what). Jobs are held to their rules only when their networks are sound."""
    found = [*_twice(rows), *_names(rows), *_order(rows), *_tasks(rows)]
    if not found:
        found = list(dict.fromkeys([*_jobs(rows), *_unused(rows)]))
    return tuple(found)


def _twice(rows: Steps) -> Iterator[Mistake]:
    lists = {
        "network": [n.id for n in rows.networks],
        "task": [t.id for n in rows.networks for t in n.tasks],
        "reading": [r.id for n in rows.networks for t in n.tasks for r in t.readings],
        "caution": [c.id for c in rows.cautions],
        "job": [*(c.id for c in rows.compositions), *(n.id for n in rows.networks)],
        "course": [c.id for c in rows.courses],
        "band of": [r for b in rows.bands for r in b.readings],
        "way back from": [b for w in rows.ways_back for b in w.blocks],
    }
    for what, ids in lists.items():
        yield from ((f"{what} {i}", "is there twice") for i in sorted({i for i in ids if ids.count(i) > 1}))


def _task_names(task: Task) -> Iterator[tuple[str, Iterable[str]]]:
    """The names that a task uses, by the list they come from."""
    yield "where", [task.where]
    yield "ground", task.ground
    yield "weather", task.weather
    yield "act", [*task.acts, *(task.hold.guards if task.hold else ())]
    yield "gear", [*task.gear, *(g for b in task.trouble_branches for g in b.gear)]
    yield "parts", task.parts
    yield "when", [task.when] if task.when else []
    yield "kept", [task.kept] if task.kept else []
    yield "every", [task.every.of] if task.every else []
    yield "scope", task.scope
    yield "engine", task.draws_on


def _names(rows: Steps) -> Iterator[Mistake]:
    """Names that nothing answers to."""
    known = {name: set(getattr(rows.words, name)) for name in type(rows.words).model_fields if name != "source"}
    for task in rows.task.values():
        for kind, names in _task_names(task):
            yield from ((task.id, f"{kind}: there is no {n}") for n in names if n not in known[kind])
        yield from ((task.id, f"cautions: there is no {c}") for c in task.cautions if c not in rows.caution)
    for band in rows.bands:
        who = f"band of {band.readings[0]}"
        yield from ((who, f"nobody takes the reading {r}") for r in band.readings if r not in rows.reading)
        yield from ((who, f"engine: there is no {e}") for e in band.engines if e not in known["engine"])
        if band.of and band.of not in (rows.figures or {}):
            yield who, f"there is no figure {band.of}"
        if band.by and band.by not in (rows.givers or {}):
            yield who, f"nothing gives {band.by}"
    any_job = {*rows.composition, *rows.network}
    for c in rows.compositions:
        yield from _composition_names(rows, c, known)
    for w in rows.ways:
        if w.use not in any_job:
            yield f"way {w.job}, {w.drive}, {w.by}", f"there is no job {w.use}"
        if w.drive not in {d.id for d in rows.drives}:
            yield f"way {w.job}", f"there is no kind of drive {w.drive}"
    asked = {w.job for w in rows.ways}
    for course in rows.courses:
        named = (*course.uses, *course.later, *course.if_raised)
        yield from ((f"course {course.id}", f"there is no job {n}") for n in named if n not in any_job | asked)
    for a in rows.apart:
        if a.id not in rows.network:
            yield f"apart {a.id}", "there is no such network"
    yield from (("if_in_field", f"there is no job {n}") for n in rows.if_in_field if n not in any_job)
    for back in rows.ways_back:
        yield from ((f"way back {back.id}", f"there is no task {b}") for b in back.blocks if b not in rows.task)
    for check in rows.after_checks:
        yield from ((f"after-check {check.id}", f"there is no act {a}") for a in check.acts if a not in known["act"])
        yield from ((f"after-check {check.id}", f"there is no task {t}") for t in check.tasks if t not in rows.task)


def _composition_names(rows: Steps, c: Composition, known: Mapping[str, set[str]]) -> Iterator[Mistake]:
    seen: set[str] = set()
    for use in c.parts:
        if use.use not in rows.network:
            yield c.id, f"there is no network {use.use}"
            continue
        yield from ((c.id, f"{use.use} waits for {a}, which is no part before it") for a in use.after if a not in seen)
        own = {t.id for t in rows.network[use.use].tasks}
        yield from ((c.id, f"{use.use} has no task {t} to leave out") for t in use.without if t not in own)
        if use.scope and use.scope not in known["scope"]:
            yield c.id, f"scope: there is no {use.scope}"
        seen.add(use.use)
    here = {t.id for part in seen for t in rows.network[part].tasks}
    for join in c.joins:
        yield from (
            (c.id, f"the join of {join.task} names {n}, which is not in it")
            for n in (join.task, *join.after)
            if n not in here
        )
    yield from ((c.id, f"when: there is no {g}") for g in c.given if g not in known["when"])


def _order(rows: Steps) -> Iterator[Mistake]:
    """Predecessors that are not there, that stand in another network or later, and circles."""
    for network in rows.networks:
        own = {t.id: t for t in network.tasks}
        for task in network.tasks:
            for a in task.after:
                if a not in rows.task:
                    yield task.id, f"waits for {a}, which is not there"
                elif a not in own:
                    yield task.id, f"waits for {a} of another network: use a join"
        circle = _circle({t.id: [a for a in t.after if a in own] for t in network.tasks})
        if circle:
            yield network.id, f"goes in a circle: {', '.join(circle)}"
            continue
        place = {t: i for i, t in enumerate(own)}
        for task in network.tasks:
            later = [a for a in task.after if place.get(a, -1) > place[task.id]]
            yield from ((task.id, f"waits for {a}, which stands later: tasks stand in working order") for a in later)


def _circle(after: Mapping[str, Sequence[str]]) -> tuple[str, ...]:
    """The tasks that wait for one another, in card order; empty if none do."""
    left = dict(after)
    while True:
        free = [t for t, waits in left.items() if not any(a in left for a in waits)]
        if not free:
            break
        for t in free:
            del left[t]
    while True:  # what only waits for the circle is not in it
        outside = [t for t in left if not any(t in waits for waits in left.values())]
        if not outside:
            return tuple(left)
        for t in outside:
            del left[t]


def _tasks(rows: Steps) -> Iterator[Mistake]:
    """What a task must be by itself."""
    rest, most = rows.rules.rest, rows.rules.card.cautions
    for task in rows.task.values():
        if task.end_day and not (task.corner in rest.corner and task.load in rest.load):
            on = task.corner if task.corner not in rest.corner else task.load
            yield task.id, f"end_day on {on}: the day ends only where corner and load rest"
        if len(task.cautions) > most:
            yield task.id, f"{len(task.cautions)} cautions; a step carries {most} at most"
        for reading in task.readings:
            if reading.card and reading.id not in rows.band:
                yield task.id, f"the reading {reading.id} has no band"
        if task.hold:
            yield from (
                (task.id, f"the reading {r} has no band")
                for r in task.hold.readings
                if r in rows.reading and r not in rows.band
            )


def cases(rows: Steps, job: str) -> tuple[frozenset[str], ...]:
    """The conditions under which a job is held to its rules: none of them, all of them, each by itself."""
    parts = rows.composition[job].parts if job in rows.composition else [Use(use=job)]
    asked = sorted({t.when for p in parts for t in rows.network[p.use].tasks if t.when})
    return tuple(dict.fromkeys([frozenset(), frozenset(asked), *(frozenset({w}) for w in asked)]))


def _jobs(rows: Steps) -> Iterator[Mistake]:
    for name in jobs(rows):
        scopes = (
            ("",)
            if name in rows.composition
            else tuple({s: 0 for t in rows.network[name].tasks for s in t.scope}) or ("",)
        )
        for scope in scopes:
            for when in cases(rows, name):
                yield from job_mistakes(rows, weave(rows, name, when, scope=scope))
            yield from _idle_holds(weave(rows, name, frozenset(rows.words.when), scope=scope))


def _idle_holds(job: Job) -> Iterator[Mistake]:
    """Holds that guard nothing later, though nothing is left out for want of a condition."""
    acts = [(a, s.task.id) for s in job.steps for a in s.task.acts]
    for step in job.steps:
        hold, me = step.task.hold, step.task.id
        if hold and not any(a in hold.guards and me in job.before[at] for a, at in acts):
            yield f"{job.id}, {me}", f"the hold guards nothing later ({', '.join(hold.guards)})"


def job_mistakes(rows: Steps, job: Job) -> Iterator[Mistake]:
    """The rules that a job must keep to: guards, readings, blocks."""
    for step in job.steps:
        task = step.task
        for act in task.acts:
            if not job.guard(act, task.id):
                yield f"{job.id}, {task.id}", f"the act {act} has no hold before it that guards it"
        if task.hold:
            seen = {r.id for s in job.steps if s.task.id in job.before[task.id] or s is step for r in s.task.readings}
            for r in task.hold.readings:
                if r not in seen and (r not in rows.reading or _home(rows, r) not in job.left_out):
                    yield f"{job.id}, {task.id}", f"the hold asks for the reading {r}, which nobody took before"
    most = rows.rules.card.readings
    for card in job.cards:
        if len(card.readings) > most:
            yield (
                job.id,
                f"{_number(len(card.readings))} readings on a card; there is room for {most}: {', '.join(r.id for r in card.readings)}",
            )
    for block in job.blocks():
        if block[0].task.id not in rows.way_back:
            yield f"{job.id}, {block[0].task.id}", "a block begins here that has no way back"
        if not block[-1].task.end_day:
            yield f"{job.id}, {block[-1].task.id}", "the job ends where the day may not end"


def _home(rows: Steps, reading: str) -> str:
    return next(t.id for t in rows.task.values() if any(r.id == reading for r in t.readings))


def _number(n: int) -> str:
    words = ("none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
    return words[n] if n < len(words) else str(n)


def _unused(rows: Steps) -> Iterator[Mistake]:
    """Rows and words that nothing uses: they are slips, or what used them was lost."""
    used: dict[str, set[str]] = {}
    for task in rows.task.values():
        for kind, names in _task_names(task):
            used.setdefault(kind, set()).update(names)
    used["engine"].update(e for b in rows.bands for e in b.engines)
    used["scope"].update(p.scope for c in rows.compositions for p in c.parts)
    for kind, names in used.items():
        yield from ((f"{kind} {n}", "nothing uses it") for n in getattr(rows.words, kind) if n not in names)
    cautioned = {c for t in rows.task.values() for c in t.cautions}
    yield from ((f"caution {c}", "no step carries it") for c in rows.caution if c not in cautioned)
    figures, givers = {b.of for b in rows.bands}, {b.by for b in rows.bands}
    yield from ((f"figure {f}", "no band uses it") for f in rows.figures or () if f not in figures)
    yield from ((f"giver {g}", "no band uses it") for g in rows.givers or () if g not in givers)
    reached = {w.use for w in rows.ways} | {u for c in rows.courses for u in (*c.uses, *c.later, *c.if_raised)}
    yield from ((f"composition {c}", "no course comes to it") for c in rows.composition if c not in reached)
    worked = {p.use for c in rows.compositions for p in c.parts} | set(jobs(rows))
    yield from ((f"network {n}", "no job works it") for n in rows.network if n not in worked)
    begun = {b[0].task.id for name in jobs(rows) for w in cases(rows, name) for b in weave(rows, name, w).blocks()}
    yield from ((f"way back from {b}", "no block begins there") for b in rows.way_back if b not in begun)
