"""What the Bolts sheet says: verdict, answer, lead, and the numbers of a joint as texts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from axlewright.plan.judge import HeldVerdict
from axlewright.plan.reckon.book_torque import as_typed, doubt
from axlewright.plan.reckon.joints import GreaseWindow, Joint
from axlewright.plan.sheet.trace import Trace
from axlewright.sheets import Piece, Run, Shown, Text, VerdictLine, text

SAID = {"no": "stop", "not known": "not known", "only if": "go if", "yes": "go"}
OTHER = {"N·m": "lbf·ft", "lbf·ft": "N·m"}
NOT_WORKED = {
    "slip": "the clamp that the wheel asks of each bolt",
    "stripping": "what strips the thread",
    "engagement": "the engagement",
}
IRON_MAY_GO = (
    "the housing thread may go before the bolt. First: count the turns by hand, name the iron, or a longer bolt"
)
MAY = {
    "engagement": IRON_MAY_GO,
    "stripping": IRON_MAY_GO,
    "slip": "the slackest bolts may slip. First: a test bolt, clean faces, bushes",
}  # a margin whose middle holds and whose careful end does not
Toward = Literal["nearest", "down", "up"]


@dataclass(frozen=True, slots=True)
class Say:
    """Texts of one joint."""

    made: Joint
    trace: Trace

    def torque(
        self, name: str, toward: Toward = "nearest", *, unit: bool = True, on: str = "", si: float | None = None
    ) -> Shown:
        """A torque in the wrench's own unit, or in another; never finer than whole units."""
        return self.trace.show(
            self.name(name), si=si, toward=toward, on_tool=on or self.made.task.unit, digits=2, with_unit=unit
        )

    def other(self, name: str, *, unit: bool = True, si: float | None = None) -> Shown:
        """The same in the other unit, rounded down."""
        return self.torque(name, "down", unit=unit, on=OTHER.get(self.made.task.unit, "N·m"), si=si)

    def number(
        self,
        name: str,
        *,
        si: float | None = None,
        ends: bool = False,
        digits: int = 3,
        with_basis: bool = False,
        with_unit: bool = True,
    ) -> Shown:
        return self.trace.show(
            self.name(name), si=si, ends=ends, digits=digits, with_basis=with_basis, with_unit=with_unit
        )

    def name(self, name: str) -> str:
        return name if name.startswith(f"{self.made.at}/") else f"{self.made.at}/{name}"

    def book(self, *, with_basis: bool = False, always_unit: bool = False) -> Shown:
        """The book's torque in the unit that was typed; its unit is said where it is not the wrench's."""
        _, unit = as_typed(self.made.task)
        return self.trace.show(
            self.name("book-torque"),
            on_tool=unit,
            with_basis=with_basis,
            with_unit=always_unit or unit != self.made.task.unit,
        )

    def edges(self, window: GreaseWindow, *, unit: bool = False) -> Text:
        """`333 to 451`, the low edge rounded up and the high one down."""
        if window.empty:
            return text("no window")
        high = self.torque(f"{window.key}/high", "down", unit=unit)
        if window.low is None:
            return text("to ", high)
        return text(self.torque(f"{window.key}/low", "up", unit=False), " to ", high)


def grease_words(window: GreaseWindow) -> str:
    """What is on the bolts, in a few words."""
    if not window.is_one:
        return f"{window.threads.label}, heads {window.heads.word}"
    return f"{window.threads.label} on threads and head" if window.threads.greased else window.threads.label


def with_words(window: GreaseWindow) -> str:
    """The same behind *with*: `bolts as received`, `anti-seize on threads and head`."""
    return grease_words(window) if window.threads.greased or not window.is_one else f"bolts {window.threads.word}"


def joint_line(verdict: HeldVerdict) -> VerdictLine:
    """JOINT as it stands on top of the sheet."""
    conditions = "; ".join(verdict.conditions)
    match verdict.word:
        case "only if":
            words = f"{conditions}: {verdict.why}."
        case "no":
            words = f"{verdict.why}. Lifted by: {verdict.lifted_by}."
        case "yes":
            words = "and two looks still."
        case _:
            words = _unknown(verdict) + (f" Then: {conditions}." if conditions else "")
    return VerdictLine(
        line="JOINT",
        word=SAID[verdict.word],
        words=text(words),
        stops=verdict.word == "no",
        unseen=verdict.word == "not known",
    )


def _unknown(verdict: HeldVerdict) -> str:
    """What is not known yet: a rule's reason first, then what nobody answered or worked out."""
    fired = [one.rule for one in verdict.fired if one.word == "not known"]
    if fired:
        return MAY.get(fired[0].margin, f"{fired[0].why}. First: {fired[0].lifted_by}") + "."
    if verdict.unanswered:
        asks = " ".join(question.asks for question in verdict.unanswered[:2])
        return asks if len(verdict.unanswered) <= 2 else f"{asks} And {len(verdict.unanswered) - 2} more."
    return f"nobody has worked out {' or '.join(NOT_WORKED.get(one, one) for one in verdict.unworked)}."


def answer(say: Say, verdict: HeldVerdict) -> Text:
    """The answer in one sentence."""
    made = say.made
    task, used = made.task, made.used
    if made.setting is not None and verdict.word == "no":
        setting = say.torque("setting")
        return text(Run(voice="must", words=(f"Stop: {verdict.why}.",)), " Put right, it would be ", setting, ".")
    if task.marked is None:
        return text("Look at the heads first: without their mark no torque is safe.")
    if task.grease is None:
        return text("Look first what is on the threads: the torque hangs on it.")
    if used is None:
        return text(Run(voice="must", words=("Clean them first:",)), " on rust, paint or dirt no torque says anything.")
    if made.asks_book:
        book = say.book(always_unit=True)
        return text(Run(voice="must", words=("Ask before you set:",)), " the book’s ", book, " would hurt these bolts.")
    if made.setting is None and used.low is not None:
        if "torque-window" not in made.answers:
            return text("Not known whether the housing thread holds: count a bolt’s turns by hand, name the iron.")
        why = ": something else on them first." if used.empty else ", within a mark of this wrench."
        return text(Run(voice="must", words=(f"No torque is safe with {with_words(used)}",)), why)
    if made.setting is None:
        return text("Not known what to aim at: type the book’s torque, or the clamp that each bolt must keep.")
    setting = say.torque("setting")
    if task.book_torque is None:
        return text("Set ", setting, f", with {with_words(used)}.")
    if made.by_book:
        return text("Set ", setting, f", as the book says: it holds with {with_words(used)}.")
    book = say.book()
    return text(
        "Set ", setting, ", not the book’s ", book, ": ", Run(voice="must", words=(f"your bolts are {_are(used)}.",))
    )


def _are(used: GreaseWindow) -> str:
    """What the bolts are, in a word or two."""
    word = used.threads.word
    return word if used.is_one or word == used.heads.word else f"{word}, their heads {used.heads.word}"


def lead(say: Say) -> Text:
    """What the book's torque would do, and what is doubtful."""
    made = say.made
    said: list[Piece] = [*_book_would(say)] if made.used is not None and made.task.book_torque is not None else []
    for one in doubts(made):
        said += [" " if said else "", one]
    return tuple(said)


def doubts(made: Joint) -> tuple[str, ...]:
    """Sentences on what is doubtful about thread, head mark and book."""
    task = made.task
    taken = f"{task.marked[1].capitalize()}." if task.marked and task.marked[1] else ""
    return tuple(filter(None, (task.thread.doubt, taken, doubt(task))))


def _book_would(say: Say) -> Text:
    made = say.made
    if made.by_book or made.used is None:
        return ()
    state = made.task.book_state
    own = next((one for one in made.windows if one.is_one and one.threads == state), None)
    book = say.book()
    if made.used.is_one and made.used.threads == state:
        return text("At the book’s ", book, *_hurts(say, ""))
    fits = "is right" if own is not None and own.holds(book.si) else "is meant"
    first: Text = text(book, f" {fits} for bolts {state.word}.")
    label = made.used.threads.label if made.used.threads.greased else with_words(made.used)
    return (*first, *_hurts(say, f" With {label}"))


def _hurts(say: Say, with_it: str) -> Text:
    """What the book's torque does to the tightest bolt, or leaves the slackest."""
    made = say.made
    assert made.used is not None
    slack, tight = made["preload-by-book"].ends()
    with_it += " the "
    pulled = say.number("preload-by-book", si=tight)
    strips = made["strips"].ends()[0]
    for limit, at, said in (
        ("breaks", made["breaks"].middle(), ": it breaks at "),
        ("strips", strips, ": the housing thread strips from "),
        ("yields", made["yields"].middle(), ": it yields at "),
    ):
        if tight > at:
            return text(
                with_it, "tightest bolt is pulled to ", pulled, said, say.number(limit, si=at, with_unit=False), "."
            )
    if made.clamp and slack < made.w[made.clamp].middle():
        keeps, needs = say.number("preload-by-book", si=slack), say.trace.show(made.clamp, with_unit=False)
        return text(with_it, "slackest bolt keeps only ", keeps, ": it needs ", needs, ".")
    return ()
