"""The sheets of the work itself: Steps, Kit, Fill and looks, Bring home, Seller's yard, Cab card and key tags.

No margin, no step list: a stop of holding, lifting or joint withholds the Steps and puts Make safe in their place. Each
sheet is drawn when all it needs is there; else it is named with what it waits for, and nothing of it is drawn.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from axlewright.plan.raised import walked_of
from axlewright.plan.reckon.joints import Joint
from axlewright.plan.reckon.support import PASCAL
from axlewright.plan.sheet.bring_home import BringHomeFacts, bring_home_sheet
from axlewright.plan.sheet.fill import FillFacts, fill_sheet
from axlewright.plan.sheet.frame import Drawn, Frame
from axlewright.plan.sheet.key_tag import TagFacts, key_tag_sheet
from axlewright.plan.sheet.kit import kit_sheet
from axlewright.plan.sheet.sellers_yard import SellerFacts, sellers_yard_sheet
from axlewright.plan.sheet.steps import StepsFacts, lifts, short, shown_steps, steps_sheets
from axlewright.plan.sheet.support_figures import drawn_as
from axlewright.plan.sheet.withheld import withheld
from axlewright.plan.steps.afterwards import brought
from axlewright.plan.steps.bands import Edges, by_verdicts
from axlewright.plan.steps.kit import kit
from axlewright.plan.work_of import Wait, Work
from axlewright.plan.work_told import (
    book_of_towing,
    clocks_at_set_down,
    gauge_tool,
    hours_told,
    number_of,
    oil_told,
    our_fit,
    road_speed,
    why_it_came_off,
    worked_on,
)
from axlewright.sheets import Grade, text
from axlewright.trade.networks import Card, Job
from axlewright.trade.steps import AfterCheck, Edge
from axlewright.yard.asked import open_boxes

GO = ("go", "go if")
TITLES = {
    "sellers-yard": "Seller’s yard",
    "bring-home": "Bring home",
    "fill": "Fill and looks",
    "kit": "Kit",
    "steps": "Steps",
    "key-tag": "Cab card and key tags",
}


@dataclass(frozen=True, slots=True)
class WorkDrawn:
    """Sheets of the work: those that stand before Support in a pack, those after Bolts, and what is waited for."""

    early: tuple[Drawn, ...] = ()
    late: tuple[Drawn, ...] = ()
    waits: tuple[Wait, ...] = ()


def work_sheets(
    work: Work,
    frame: Frame,
    raised: Sequence[Drawn] = (),
    bolts: Drawn | None = None,
    joint: Joint | None = None,
) -> WorkDrawn:
    """The sheets of a trouble's work.

    Args:
        work: what is known of it
        frame: what its title blocks say
        raised: its Support and Wheel and lift sheets
        bolts: its Bolts sheet
        joint: its flange bolts, reckoned through
    """
    waits = [*work.waits(), *_not_reckoned(work, raised, joint)]
    waiting = {wait.sheet for wait in waits}
    early = [_seller(work, frame)] if _seeks(work) else []
    if work.in_field:
        early.append(_bring_home(work, frame))
    late = []
    if work.fills and "Fill and looks" not in waiting:
        late.append(_fill(work, frame))
    if work.carded:
        late += [_kit(work, frame)] if "Kit" not in waiting else []
        late += _steps(work, frame, raised, bolts, joint, waits)
    late.append(_tags(work, frame))
    return WorkDrawn(tuple(early), tuple(late), tuple(waits))


def work_named(work: Work | None) -> tuple[tuple[tuple[str, str], ...], tuple[tuple[str, str], ...]]:
    """Names and titles of the sheets that `work_sheets` would give, without drawing them: early and late ones."""
    if work is None:
        return (), ()
    waiting = {wait.sheet for wait in work.waits()}
    early = [*(["sellers-yard"] if _seeks(work) else []), *(["bring-home"] if work.in_field else [])]
    late = ["fill"] if work.fills and "Fill and looks" not in waiting else []
    if work.carded:
        late += [name for name in ("kit", "steps") if TITLES[name] not in waiting]
    late.append("key-tag")
    return tuple((name, TITLES[name]) for name in early), tuple((name, TITLES[name]) for name in late)


def _seeks(work: Work) -> bool:
    """Whether a drive is fetched from a seller."""
    return "fetch-used" in work.course.uses


# Steps
def _not_reckoned(work: Work, raised: Sequence[Drawn], joint: Joint | None) -> list[Wait]:
    """What its bands wait for that no question names by itself."""
    if _stops(raised, None) or any(wait.sheet == "Steps" for wait in work.waits()):
        return []
    found = []
    if "gauge" in work.asks and _gauge(work, raised) is None:
        found.append(Wait("Steps", "No band for the jack’s gauge yet: the Support sheet says why, beside its gauge."))
    if "torque-window" in work.asks and _window(joint) is None and joint is not None:
        found.append(Wait("Steps", "No torque to set yet: the Bolts sheet says what to look at."))
    return found


def _stops(raised: Sequence[Drawn], bolts: Drawn | None) -> tuple[Drawn, ...]:
    """The sheets that say stop."""
    drawn = (*raised, *((bolts,) if bolts else ()))
    return tuple(one for one in drawn if any(line.stops for line in one.sheets[0].verdicts))


def _steps(
    work: Work, frame: Frame, raised: Sequence[Drawn], bolts: Drawn | None, joint: Joint | None, waits: Sequence[Wait]
) -> list[Drawn]:
    """Every step card of the work; Make safe in their place where something stops it."""
    stops = _stops(raised, bolts)
    if stops and (work.raises or work.takes_off):
        return [withheld(stops, frame)]
    if any(wait.sheet == "Steps" for wait in waits):
        return []
    rows = gauge_tool(work)
    made = []
    main = ([job for job in work.carded if lifts(job.steps)] or list(work.carded))[-1]
    brief = [job for job in work.carded if job is not main and len(job.cards) == 1 and short(job.cards[0])]
    before = [steps_facts(work, job, frame) for job in brief]
    for job in work.carded:
        if job in brief:
            continue
        facts = steps_facts(work, job, frame, raised, joint)
        for card in job.cards:
            name = "-".join(filter(None, ("steps", "" if job is main else job.id, card.part)))
            mine = _of_card(facts, card, frame)
            first = before if job is main and not card.part else ()
            made.append(steps_sheets(rows, mine, card.part, name=name, before=first))
    return made


def _of_card(facts: StepsFacts, card: Card, frame: Frame) -> StepsFacts:
    """What one card is drawn from: the job's hours stand on its own card, the grade where something hangs."""
    if card.part:
        facts = replace(facts, told=(), hours=())
    return facts if lifts(shown_steps(card)) else replace(facts, frame=frame)


def steps_facts(
    work: Work, job: Job, frame: Frame, raised: Sequence[Drawn] = (), joint: Joint | None = None
) -> StepsFacts:
    """What the step cards of a job are drawn from."""
    lifted = lifts(job.steps)
    window, gauge = _window(joint), _gauge(work, raised)
    limit = number_of(work, "drive/rock-limit")
    given = by_verdicts(limit.si if limit else None)
    if gauge:
        given["gauge"] = gauge
    return StepsFacts(
        job=job,
        here=work.here,
        frame=replace(frame, grade=released(work, raised, frame)) if lifted else frame,
        figures={**work.figures, **({"torque-window": window} if window else {})},
        given=given,
        marks=_marks(work),
        work_begins=work.begins,
        sunset=work.sunset,
        emergency=work.words.get("help/emergency", ""),
        gate=work.words.get("help/gate", ""),
        second=work.words.get("work/second", ""),
        told=worked_on(work, joint) if lifted else (),
        hours=hours_told(work.rows, job, work.here) if lifted else (),
    )


def released(work: Work, raised: Sequence[Drawn], frame: Frame) -> Grade:
    """A shop sheet only once somebody walked round and both holding and lifting say go; else NOT FOR LIFTING."""
    walked = walked_of(work.yard, work.trouble)
    lines = [line for one in raised for line in one.sheets[0].verdicts]
    shut = [line.line for line in lines if line.word not in GO]
    grade = raised[0].sheets[0].grade if raised else None
    if walked and grade and lines and not shut:
        return grade
    if walked is None:
        left = len(open_boxes(work.yard, work.trouble))
        return Grade(shop=False, words=text(f"table sheet, to plan by; {left} boxes of the walk-round are open"))
    return Grade(shop=False, words=text(f"{' and '.join(shut) or 'HOLD'} not go yet: see its sheet"))


def _marks(work: Work) -> dict[str, float]:
    """The step of the tools really used, by reading."""
    found = dict(work.wrench_marks)
    gauge = work.numbers.get("jack/gauge-mark")
    if gauge:
        found["jack-gauge"] = gauge.spread.middle() / _gauge_unit(work)
    return found


def _gauge_unit(work: Work) -> float:
    return PASCAL.get(work.words.get("jack/gauge", ""), PASCAL["bar"])


def _gauge(work: Work, raised: Sequence[Drawn]) -> Edges | None:
    """Edges of the jack gauge's band, in its own unit: the very numbers that the Support sheet prints."""
    corner = work.trouble.corner
    name = f"held/{corner.machine}.{corner.place}/hold/gauge/"
    basis = raised[0].basis if raised else {}
    if not all(f"{name}{end}" in basis for end in ("from", "to", "above")):
        return None
    from_, to, above = (float(basis[f"{name}{end}"].value) / _gauge_unit(work) for end in ("from", "to", "above"))
    return Edges((from_, to), (0.0, above))


def _window(joint: Joint | None) -> Edge | None:
    """The torque window for the grease really used [N m]; None where nothing is to be set."""
    if joint is None or joint.used is None or joint.setting is None or joint.used.low is None:
        return None
    return joint.used.low, joint.used.high


# the other sheets
def _kit(work: Work, frame: Frame) -> Drawn:
    jobs = [job for job in (work.jobs.now if work.jobs else ()) if job in work.carded]
    need = kit(work.rows, jobs, work.have)
    return kit_sheet(jobs, need, frame, work.here.hands, work.day, work.ready_by)


def _fill(work: Work, frame: Frame) -> Drawn:
    job = next(job for job in work.carded if any(s.task.id == "fi-pour" for s in job.steps))
    limit = number_of(work, "drive/rock-limit")
    return fill_sheet(
        work.rows,
        FillFacts(
            job=job,
            frame=frame,
            checks=checks_of(work),
            oil=oil_told(work),
            fluid=work.words.get("brake/fluid", ""),
            litres=number_of(work, "oil/volume"),
            turning_plug=work.words.get("drive/level-plug") == "turns",
            clocks=clocks_at_set_down(work),
            figures=work.figures,
            given=by_verdicts(limit.si if limit else None),
        ),
    )


def checks_of(work: Work) -> tuple[AfterCheck, ...]:
    """The after-checks that its jobs bring."""
    return brought(work.rows, work.jobs.now if work.jobs else (), work.course.incoming)


def _bring_home(work: Work, frame: Frame) -> Drawn:
    ring = {"recovery": work.words["help/ring"]} if "help/ring" in work.words else {}
    facts = BringHomeFacts(frame, work.here, book_of_towing(work), by_verdicts(), ring)
    return bring_home_sheet(work.rows, facts)


def _seller(work: Work, frame: Frame) -> Drawn:
    twin = work.figures.get("twin")
    facts = SellerFacts(frame, our_fit(work), twin[0] if twin else None, number_of(work, "drive/rock-limit"))
    return sellers_yard_sheet(work.rows, facts)


def _tags(work: Work, frame: Frame) -> Drawn:
    machine = work.yard.machine(work.trouble.corner.machine)
    on, off = work.incoming, work.outgoing
    swapped = on is not None and on != off
    sits = on or off
    down = next((s.on for s in work.yard.stages_of(work.trouble.number) if s.stage == "set down"), None)
    return key_tag_sheet(
        work.rows,
        TagFacts(
            frame=frame,
            checks=checks_of(work),
            machine=drawn_as(machine.kind) if machine.kind else "",
            corner=work.trouble.corner.place,
            drive=sits.name if sits else "",
            fitted=down,
            old=off.name if off and swapped else "",
            why=why_it_came_off(work),
            clocks=clocks_at_set_down(work),
            speed=road_speed(work),
            ring=work.words.get("help/ring", ""),
            emergency=work.words.get("help/emergency", ""),
            gate=work.words.get("help/gate", ""),
        ),
    )
