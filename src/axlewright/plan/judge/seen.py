"""From looks, each with its age, to what counts now: which grades stand, and what was looked at lately."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import TypeAlias

from axlewright.plan.facts import Seen
from axlewright.trade.findings import Finding, Grade, findings
from axlewright.trade.looks import Look, looks

Pair: TypeAlias = tuple[str, str]  # finding, grade
TWO_STILL_WITHIN = 50.0  # h after the wheel was off (bolts B7, common practice)


@dataclass(frozen=True, slots=True)
class State:
    """What counts at a corner: grades that stand, findings that were looked at lately, and an unfinished job.

    `moved` tells what a finding was, where its newest look was good and it is not yet put right by that. `ages` are the
    engine hours since each was looked at; `since`, those since the first look that speaks of what is the matter now.
    """

    pairs: frozenset[Pair]
    fresh: frozenset[str]
    job_open: bool = False
    moved: Mapping[str, str] = field(default_factory=dict)
    ages: Mapping[str, float] = field(default_factory=dict)
    since: float = 0.0

    def waits(self, finding: str) -> float:
        """Engine hours for which a finding has not been looked at, though what is the matter now asks for it."""
        fresh = looks()[findings()[finding].look].fresh_hours
        stale = self.ages[finding] - fresh if finding in self.ages and fresh is not None else self.since
        return max(min(self.since, stale), 0.0)


def grade_of(seen: Seen) -> Grade:
    return findings()[seen.finding].grade(seen.grade)


def unknown(finding: str, grade: str) -> bool:
    """Whether the trade knows no such finding or grade."""
    row = findings().get(finding)
    return row is None or grade not in {g.id for g in row.grades}


def counts(seen: Seen) -> bool:
    """Whether a look is evidence: too soon after the plug was wiped, only bad news counts."""
    if seen.since_wiped is None or not grade_of(seen).good:
        return True
    return seen.since_wiped >= looks()[findings()[seen.finding].look].good_counts_after_hours


def fresh_hours(look: Look, standing: frozenset[Pair]) -> float | None:
    """For how many engine hours a look is fresh; sooner over where a leak is known."""
    hours = look.fresh_hours
    for sooner in look.sooner:
        if any((finding, grade) in standing for finding, grades in sooner.grades.items() for grade in grades):
            hours = sooner.hours if hours is None else min(hours, sooner.hours)
    return hours


def is_fresh(seen: Seen, standing: frozenset[Pair] = frozenset()) -> bool:
    """Whether a look is less old than its hours and its days allow."""
    look = looks()[findings()[seen.finding].look]
    hours = fresh_hours(look, standing)
    too_many_hours = seen.hours_ago is not None and hours is not None and seen.hours_ago >= hours
    too_many_days = seen.days_ago is not None and look.fresh_days is not None and seen.days_ago >= look.fresh_days
    return not too_many_hours and not too_many_days


def state_of(seen: Iterable[Seen], *, job_open: bool = False) -> State:
    """What counts now.

    A good grade stands while it is fresh; a bad one until a newer look, a bolt or nut that moved until two; what is
    lasting until its records are gone (cover off, another drive, a correcting record: `plan/facts` leaves them out).
    Two grades at one look: the worse.
    """
    seen = tuple(seen)
    standing = standing_looks(seen)
    bad = frozenset((one.finding, one.grade) for ones in standing.values() for one in ones if not grade_of(one).good)
    fresh = frozenset(name for name, ones in standing.items() if ones and is_fresh(_newest(ones)[0], bad))
    good = frozenset(
        (one.finding, one.grade)
        for ones in standing.values()
        for one in ones
        if grade_of(one).good and is_fresh(one, bad)
    )
    moved = {name: was for name, group in by_finding(seen).items() if (was := put_right(findings()[name], group).was)}
    ages = {name: max(one.hours_ago or 0.0 for one in ones) for name, ones in standing.items() if ones}
    return State(bad | good, fresh, job_open, moved, ages, _since(seen, standing, fresh))


def _since(seen: Sequence[Seen], standing: Mapping[str, tuple[Seen, ...]], fresh: Collection[str]) -> float:
    """Engine hours since the first look of the trouble that runs; without one, since the oldest that still counts."""
    running = [one.hours_ago or 0.0 for one in seen if one.running]
    return max(running or [one.hours_ago or 0.0 for name in fresh for one in standing[name]], default=0.0)


def by_finding(seen: Iterable[Seen]) -> dict[str, list[Seen]]:
    """Looks that are evidence, by finding."""
    groups: dict[str, list[Seen]] = defaultdict(list)
    for one in seen:
        if counts(one):
            groups[one.finding].append(one)
    return groups


def standing_looks(seen: Iterable[Seen]) -> dict[str, tuple[Seen, ...]]:
    """By finding the looks that stand, stale ones too; several where several things are true at once."""
    groups = by_finding(seen)
    if "nuts" in groups:
        groups["nuts"] = two_still(groups["nuts"])
    return {name: _standing(name, tuple(group)) for name, group in groups.items()}


def two_still(nuts: Sequence[Seen]) -> list[Seen]:
    """Looks at the wheel nuts, those within 50 h of fitting by the two-still rule: the first still one is *once still*."""
    fitted = [one for one in nuts if one.since_off is not None]

    def graded(one: Seen) -> Seen:
        older = [other for other in fitted if _age(other) > _age(one)]
        before = [other.grade for other in _newest(older)] if older else []
        return replace(one, grade=still_nuts(one.grade, before, one.since_off))

    return [graded(one) for one in nuts]


def still_nuts(grade: str, look_before: Collection[str], hours_since_off: float | None) -> str:
    """Grade of wheel nuts by the two-still rule.

    Args:
        grade: what this look found
        look_before: what the look before it found, since the wheel was fitted; several where two people looked
        hours_since_off: engine hours since the wheel was off, at this look; None where that is long ago

    Returns:
        that grade; `once-still` where it is the first still look running
    """
    if grade != "still" or hours_since_off is None or hours_since_off >= TWO_STILL_WITHIN:
        return grade
    return "still" if look_before and set(look_before) <= {"still", "once-still"} else "once-still"


def _age(seen: Seen) -> tuple[float, float]:
    return seen.days_ago or 0.0, seen.hours_ago or 0.0


def _newest(group: Sequence[Seen]) -> list[Seen]:
    youngest = min(_age(one) for one in group)
    return [one for one in group if _age(one) == youngest]


@lru_cache(maxsize=2048)
def _standing(name: str, group: tuple[Seen, ...]) -> tuple[Seen, ...]:
    """The looks of one finding that stand: the newest, what is lasting, and a dial's word before the eye's.

    Kept, since what one more look would mean is asked of every look and grade, with all the others as they are.
    """
    finding = findings()[name]
    return tuple(_newest(group) if not finding.ordered else _standing_in_order(finding, group))


def _standing_in_order(finding: Finding, group: Sequence[Seen]) -> list[Seen]:
    order = {grade.id: place for place, grade in enumerate(finding.grades)}

    def worst(ones: Sequence[Seen]) -> Seen:
        return max(ones, key=lambda one: order[one.grade])

    if stands := put_right(finding, group).stands:
        return [replace(_newest(group)[0], grade=stands)]  # at the age of the newest look
    by_eye = [one for one in group if finding.grade(one.grade).by == "eye"]
    exact = [one for one in group if finding.grade(one.grade).by != "eye"]
    dial, eye = (worst(_newest(ones)) if ones else None for ones in (exact, by_eye))
    felt = [one for one in by_eye if not grade_of(one).good and (dial is None or _age(one) < _age(dial))]
    if eye and felt:  # what the eye found it cannot clear: a dial does
        eye = replace(worst(felt), hours_ago=eye.hours_ago, days_ago=eye.days_ago)
    found = _by_eye_and_dial(finding, dial, eye)
    lasting = [one for one in group if finding.grade(one.grade).lasting]
    if not lasting:
        return found
    # an old proof stands at the age of the newest look: it was looked at again, and ruled nothing out
    worse = worst([*lasting, *(one for one in found if finding.grade(one.grade).by != "eye")])
    newest = min(found, key=_age)
    kept = replace(worse, hours_ago=newest.hours_ago, days_ago=newest.days_ago)
    return [kept, *(one for one in found if finding.grade(one.grade).by == "eye")]


@dataclass(frozen=True, slots=True)
class PutRight:
    """What something that moved stands as, and what it was, where its newest look was good."""

    stands: str = ""
    was: str = ""


def put_right(finding: Finding, group: Iterable[Seen]) -> PutRight:
    """How far something that moved was put right: it wants several good looks, each so many hours after the last bad one.

    A worse grade wants its own and then those of every milder one: what came loose has also moved.
    """
    wanting = [grade for grade in finding.grades if grade.put_right]
    order = [grade.id for grade in wanting]
    if not any(one.grade in order for one in group):
        return PutRight()
    stands, was, last, ran = -1, "", (0.0, 0.0), list[float]()
    for age, looks_then in sorted(_by_age(group).items(), reverse=True):
        worst = max((order.index(one.grade) for one in looks_then if one.grade in order), default=-1)
        if worst >= 0:
            stands, last, ran = max(stands, worst), age, []
            was = order[stands]
        else:
            ran.append(min(_ran(last, one) for one in looks_then))
            owed = [n for n in range(stands + 1) if not _had(wanting[n].put_right, ran)]
            stands = max(owed, default=-1)
    return PutRight(order[stands], was if ran else "") if stands >= 0 else PutRight()


def _by_age(group: Iterable[Seen]) -> dict[tuple[float, float], list[Seen]]:
    ages: dict[tuple[float, float], list[Seen]] = defaultdict(list)
    for one in group:
        ages[_age(one)].append(one)
    return ages


def _ran(since: tuple[float, float], one: Seen) -> float:
    """Engine hours from a bad look to a later one."""
    return since[1] - (one.hours_ago or 0.0) if one.since_bad is None else one.since_bad


def _had(wanted: Sequence[float], ran: Sequence[float]) -> bool:
    """Whether the looks after it, oldest first, came as they were wanted."""
    coming = iter(ran)
    return all(any(hours >= least for hours in coming) for least in wanted)


def _by_eye_and_dial(finding: Finding, dial: Seen | None, eye: Seen | None) -> list[Seen]:
    """The eye knows two grades only: a clunk stands beside the dial's word, and `still` never replaces it.

    Only where the dial's good word has grown old does `still` stand in its own right.
    """
    if dial is None or eye is None or _age(dial) <= _age(eye):
        return [one for one in (dial or eye,) if one]
    dial_good, eye_good = finding.grade(dial.grade).good, finding.grade(eye.grade).good
    if eye_good:
        return [eye] if dial_good and not is_fresh(dial) else [dial]
    return [eye] if dial_good else [dial, eye]
