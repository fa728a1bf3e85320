"""Cab card and key tags: speed, stop list, the looks by the clock as it will read; what must be known before a key is turned."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from axlewright.plan.sheet import cab_drawing as draw
from axlewright.plan.sheet.fill import HOUR, Clocks
from axlewright.plan.sheet.frame import Drawn, Frame, Number, Numbers
from axlewright.plan.steps.afterwards import due, on_second_clock
from axlewright.sheets import Day, Drawing, Figure, Note, Run, Section, Sheet, Shown, Text
from axlewright.trade.cards import cards
from axlewright.trade.steps import AfterCheck, Steps

ROWS = 3
CARD = 196.0  # mm of the cab card
BLANK = "________"
LONG_NAME = 20  # letters of a drive: more do not fit a tag in large
KM = 1000.0
KM_H = 1 / 3.6


@dataclass(frozen=True, slots=True)
class TagFacts:
    """What the cab card and the tags say.

    Attributes:
        frame: title block
        checks: the after-checks that run
        machine: kind of machine, for the drawing; empty leaves it out
        corner: of the machine, as front-right
        drive: the drive that is on now
        fitted: when it was fitted
        old: the drive that came off
        why: why it came off
        clocks: at set-down; None before it
        speed: the book's greatest speed on the road; the card's own where there is none
        ring: whom to ring
        emergency: number to ring
        gate: address of the gate
    """

    frame: Frame
    checks: Sequence[AfterCheck] = ()
    machine: str = ""
    corner: str = ""
    drive: str = ""
    fitted: date | None = None
    old: str = ""
    why: str = ""
    clocks: Clocks | None = None
    speed: Number | None = None
    ring: str = ""
    emergency: str = ""
    gate: str = ""


def key_tag_sheet(rows: Steps, facts: TagFacts) -> Drawn:
    """The sheet of one page: the cab card at the left, four tags at the right."""
    make = _Maker(rows, facts, Numbers())
    frame = facts.frame
    tags = (make.nuts(), make.no_oil(), make.raised(), make.old())
    sheet = Sheet(
        name="key-tag",
        head=(
            Run(voice="strong", words=("Cab card and key tags",)),
            *((f" · {frame.corner}",) if frame.corner else ()),
        ),
        answer=("Cut out, fold the tags, hang them where the key hangs.",),
        sections=(
            Section(
                heading="Cab card", aside="in the cab, where the driver looks", blocks=(Figure(drawing=make.cab()),)
            ),
            Section(
                heading="Key tags",
                aside="front, back; fold on the middle line",
                blocks=(
                    *(Figure(drawing=t) for t in tags),
                    Note(words=("A tag hangs on the key: the driver reads the key.",), size="small"),
                ),
                place="right",
            ),
        ),
        revisions=frame.revisions[-ROWS:],
        block=frame.block("Cab card and key tags"),
        paper="dense",
    )
    return Drawn((sheet,), make.numbers.entries)


@dataclass(frozen=True, slots=True)
class _Maker:
    rows: Steps
    facts: TagFacts
    numbers: Numbers

    def machine(self) -> str:
        return self.facts.frame.corner.split(",")[0] or BLANK

    def speed(self) -> Shown:
        number = self.facts.speed or Number(
            "cards/road-speed", "speed", cards().cab.speed_km_h * KM_H, "assumed", cards().source
        )
        return self.numbers.show(number, digits=2, toward="down", with_basis=False)

    def distance(self, name: str, km: float) -> Shown:
        return self.numbers.show(
            Number(f"cards/{name}", "length", km * KM, "assumed", cards().source),
            digits=2,
            toward="down",
            with_basis=False,
        )

    def reading(self, check: str, which: str, n: int, at: float) -> Shown:
        row = next(c for c in self.rows.after_checks if c.id == check)
        number = Number(f"steps/after/{check}/{which}-{n}", "duration", at * HOUR, "computed", row.source)
        return self.numbers.show(
            number, on_tool="h", digits=len(f"{at:g}".replace(".", "")), with_basis=False, with_unit=False
        )

    def readings(self, check: str, most: int = 4) -> Sequence[Text]:
        """Clock readings of a check, or lines to write them on."""
        row = next((c for c in self.facts.checks if c.id == check), None)
        clocks = self.facts.clocks
        if row is None or clocks is None:
            return [("_______",)] * most
        return [(self.reading(check, "engine", n, at),) for n, at in enumerate(due(row, clocks.engine), 1)][:most]

    def second(self, check: str, most: int = 4) -> Sequence[Text]:
        row = next((c for c in self.facts.checks if c.id == check), None)
        clocks = self.facts.clocks
        if row is None or clocks is None or clocks.second is None:
            return []
        found = on_second_clock(row, clocks.engine, clocks.second, clocks.rate)
        return [(self.reading(check, "second", n, at),) for n, at in enumerate(found, 1)][:most]

    def at_set_down(self) -> Text:
        clocks = self.facts.clocks
        if clocks is None:
            return ("set down at ", BLANK)
        engine = Number("steps/set-down/engine", "duration", clocks.engine * HOUR, "measured", "read at set-down")
        told: Text = (
            "set down at ",
            self.numbers.show(
                engine, on_tool="h", digits=len(f"{clocks.engine:.1f}") - 1, with_basis=False, with_unit=False
            ),
        )
        if clocks.second is None:
            return told
        second = Number("steps/set-down/second", "duration", clocks.second * HOUR, "measured", "read at set-down")
        shown = self.numbers.show(
            second, on_tool="h", digits=len(f"{clocks.second:.1f}") - 1, with_basis=False, with_unit=False
        )
        return (*told, " (second clock ", shown, ")")

    def cab(self) -> Drawing:
        facts, words = self.facts, cards().cab
        s = draw.Stack(y=2.0)
        s.key((self.machine() + (f", {facts.corner.replace('-', ' ')}" if facts.corner else ""),))
        fitted: Text = (", fitted ", Day(on=facts.fitted)) if facts.fitted else ()
        s.line((f"drive {facts.drive}" if facts.drive else "drive ________", *fitted), "soft")
        s.line(self.at_set_down(), "soft")
        s.rule("outline")
        foot = draw.beside(s, facts.machine, facts.corner, s.y + 1.0) if facts.machine and facts.corner else 0.0
        s.gap(2.0)
        s.key((self.speed(), " on the road"))
        if any(c.id == "wheel-nuts" for c in facts.checks):
            s.line(("Not at all before ", *self.readings("wheel-nuts")[0], ","))
            s.line(("and the first look at the nuts.",))
        else:  # no wheel came off: the verdict alone says whether it goes on the road
            s.line(("Only while GO ON ROAD says yes,",))
            s.line(("or only if, its conditions met.",))
        s.line(("Stop after ", self.distance("first-stop", words.first_stop_km), ", then every"))
        s.line(
            (
                self.distance("then-every", words.then_every_km),
                ": back of the hand",
            )
        )
        s.line(("near both hubs. One hotter: stop.",))
        s.y = max(s.y, foot)
        s.rule()
        s.words("Stop, and stay stopped, for", "must")
        for one in words.stop_list:
            s.words(one)
        s.rule()
        s.words("Before each road move, five minutes", "strong")
        for one in words.before_road:
            s.words(one)
        s.rule()
        s.words("Wheel nuts, by the engine clock", "strong")
        draw.grid(s, self.readings("wheel-nuts"), ("still", "how many moved", "who"))
        self._others(s)
        s.rule("outline")
        s.words(words.last, "must")
        s.words(f"Ring {facts.ring or '________________'}.")
        s.words(f"Emergency {facts.emergency or '____________'}.")
        s.words(f"Gate {facts.gate or '________________'}.")
        letter = f"trouble {facts.frame.trouble}, revision {facts.frame.revision}. " if facts.frame.trouble else ""
        s.words(f"{letter}The machine's own book comes first.", "soft")
        return draw.cut_out(s, "Cab card to cut out. " + ". ".join(s.told), max(CARD, round(s.y + 3.0, 1)))

    def _others(self, s: draw.Stack) -> None:
        """The other looks with their first readings, one line each, and the second clock's."""
        s.gap(1.4)
        second = self.second("wheel-nuts")
        if second:
            joined: Text = ()
            for one in second:
                joined += (" · ", *one) if joined else one
            s.rule("hair")
            s.line(("second clock: ", *joined), "soft")
        for check, name in (("level", "Level"), ("plug", "Plug")):
            if any(c.id == check for c in self.facts.checks):
                told: Text = ()
                for one in self.readings(check, 3):
                    told += (" · ", *one) if told else one
                s.line((f"{name} at ", *told))

    def nuts(self) -> Drawing:
        front, back = draw.side(), draw.side()
        readings = self.readings("wheel-nuts")
        front.key((f"{self.machine()}: NUTS at",))
        for pair in (readings[:2], readings[2:]):
            told: Text = ()
            for one in pair:
                told += (" · ", *one) if told else one
            if told:
                front.key(told)
        back.key((self.speed(),), must=True)
        back.line(("Feel both hubs after ", self.distance("first-stop", cards().cab.first_stop_km), "."))
        back.line(("turn over: nuts, by the engine clock",), "soft")
        return draw.tag(front, back, "Key tag: when the nuts are looked at.")

    def no_oil(self) -> Drawing:
        front, back = draw.side(), draw.side()
        front.key(("NO OIL",), must=True)
        front.words(cards().tag.no_oil)
        if self.facts.drive:
            front.line((f"drive {self.facts.drive}",), "soft")
        back.key(("Oil seen",))
        back.line(("by ______________ at _________",))
        back.line(("then, and only then, cut this tag off",), "soft")
        return draw.tag(front, back, "Key tag: no oil.")

    def raised(self) -> Drawing:
        front, back = draw.side(), draw.side()
        front.key(("DO NOT MOVE",), must=True)
        front.line(("Corner raised.",), "strong")
        front.words(cards().tag.raised)
        back.key(("LOOK DUE at",))
        back.line(("__________ by ______________",))
        back.line(("line, chocks, gap, oil, weather",), "soft")
        return draw.tag(front, back, "Key tag: do not move.")

    def old(self) -> Drawing:
        front, back = draw.side(), draw.side()
        facts = self.facts
        if len(facts.old) > LONG_NAME:
            front.words(f"Drive {facts.old}", "strong")
        else:
            front.key((f"Drive {facts.old or BLANK}",))
        came: Text = (self.machine(), f" {facts.corner.replace('-', ' ')}", ", ") if facts.corner else ("________, ",)
        front.line(("off ", *came, Day(on=facts.fitted) if facts.fitted else BLANK))
        front.words(facts.why or "why: ________________")
        back.key(("Core",))
        back.line(("to ____________ by __________",))
        back.words("or rebuilt over winter; filled and plugged, off concrete", "soft")
        return draw.tag(front, back, "Tag of the drive that came off.")
