"""Bolts: which numbers feed which engine. A torque window for each grease, the setting, what a bolt then holds, margins."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from axlewright.engines.joints import tools, window
from axlewright.engines.joints.order import Pass, cross_order, fitted_first, floor_to_mark, passes
from axlewright.engines.joints.stress import preload_at_break, preload_at_yield, pressure_under_head
from axlewright.engines.joints.tightening import preload_from_torque, torque_from_preload
from axlewright.kinds import KINDS
from axlewright.plan.margins import Margin
from axlewright.plan.once import once
from axlewright.plan.reckon.bolt_parts import bolt, engagement, frictions, section
from axlewright.plan.reckon.bolt_task import BoltTask
from axlewright.plan.reckon.book_torque import breaks
from axlewright.plan.workings import Got, Workings
from axlewright.quantities import careful, digest
from axlewright.trade import tightening as ways
from axlewright.trade.lubricants import Condition

SAME = 1e-9  # of a torque: one that stands on an edge is inside
CAREFUL_END = "the careful end of"


@dataclass(frozen=True, slots=True)
class GreaseWindow:
    """The torques of one grease [N m]: from `low` the slackest bolt keeps its clamp, to `high` the tightest is not hurt.

    Attributes:
        threads, heads: what is on them
        low: None where no clamp is asked for
        high: below yield, and below what strips the housing
        may_break: from here the tightest may break
        strips_first: `high` stands where the housing thread strips, not where the bolt yields
        key: names of its numbers begin with it
    """

    threads: Condition
    heads: Condition
    low: float | None
    high: float
    may_break: float
    strips_first: bool
    key: str

    @property
    def empty(self) -> bool:
        return self.low is not None and self.low > self.high * (1 + SAME)

    @property
    def is_one(self) -> bool:
        """Whether threads and heads carry the same."""
        return self.threads == self.heads

    def holds(self, torque: float) -> bool:
        return (self.low is None or torque >= self.low * (1 - SAME)) and torque <= self.high * (1 + SAME)


@dataclass(frozen=True, slots=True)
class Joint:
    """A joint reckoned through. What could not be worked out is None.

    Attributes:
        windows: of every grease that is shown, the most slippery first
        used: that of the grease really used
        setting: what to set the wrench to [N m]
        by_book: the setting is the book's own
        asks_book: the book's torque is meant for this grease and does not fit these bolts: ask before anything is set
        order: bolt numbers in the order of tightening, fitted ones first
        clamp: name of the clamp that the low edges are for
    """

    at: str
    task: BoltTask
    w: Workings
    windows: tuple[GreaseWindow, ...]
    used: GreaseWindow | None
    setting: float | None
    by_book: bool
    asks_book: bool
    passes: tuple[Pass, ...]
    order: tuple[int, ...]
    clamp: str
    margins: tuple[Margin, ...]
    answers: dict[str, str]

    def __getitem__(self, name: str) -> Got:
        return self.w[f"{self.at}/{name}"]

    def __contains__(self, name: str) -> bool:
        return f"{self.at}/{name}" in self.w


@once
def joint(task: BoltTask, at: str, seed: int, count: int) -> Joint:
    """The bolts of a joint, reckoned through.

    Raises:
        NotRead: a head mark, a grease or a metal that nobody knows
        Refused: a number of it is out of range; says which
    """
    w = Workings(task.quantities(at), seed, count, task.things(at))
    order = _order(task)
    answers = task.answered()
    if task.marked is None:  # without a grade there is nothing to work out
        return Joint(at, task, w, (), None, None, False, False, (), order, "", (), answers)
    bolt(w, at, task)
    clamp = _clamp(w, at, task)
    windows = tuple(_window(w, at, state, state, clamp) for state in task.states())
    used = _used(w, at, task, windows, clamp)
    setting, by_book, asks_book = _setting(task, used)
    if used is not None:
        if setting is not None or asks_book:
            answers["torque-window"] = "there-is"
        elif not (used.strips_first and task.housing_guessed):  # else not known: it hangs on what nobody looked at
            answers["torque-window"] = "none"
        answers["torque-from"] = "unknown" if asks_book else answers["torque-from"]
    elif task.grease is not None:  # rust, paint or dirt: no torque says anything
        answers["torque-window"] = "none"
    margins = engagement(w, at)
    if used is not None:
        margins += _limits(w, at, used)
    made: tuple[Pass, ...] = ()
    if setting is not None and used is not None:
        made = _passes(setting, task.mark)
        _kept(w, f"{at}/setting", "torque", setting, _why(by_book), (f"{used.key}/high",))
        margins += _held(w, at, used, task)
        _tool(task, setting, answers)
    if used is not None and task.book_torque is not None:
        _by_book(w, at, used)
    if setting is not None or task.book_torque is not None:
        _hands(w, at, task, setting is not None)
    return Joint(at, task, w, windows, used, setting, by_book, asks_book, made, order, clamp, margins, answers)


def _kept(w: Workings, name: str, kind: str, value: float, source: str, made_of: tuple[str, ...]) -> Got:
    """A value read off draws, or off a scale: a number of its own, the same in all draws."""
    draws = np.full(w.count, value)
    w.got[name] = Got(name, KINDS[kind], draws, "computed", source, digest(name, value), made_of)
    return w.got[name]


def _order(task: BoltTask) -> tuple[int, ...]:
    return fitted_first(cross_order(task.bolts, task.fitted[0] if task.fitted else 1), task.fitted)


def _clamp(w: Workings, at: str, task: BoltTask) -> str:
    """The name of the clamp that each bolt must keep: as given, else what the book's own slackest bolt keeps."""
    if task.clamp_needed is not None:
        return f"{at}/clamp-needed"
    if task.book_torque is None or task.book_state.clean_first:
        return ""
    w.work_out(
        f"{at}/book-meant", tools.torque_at_bolt, setting=f"{at}/book-torque", wrench_factor=f"{at}/wrench-factor"
    )
    meant = w.work_out(
        f"{at}/book-preload",
        preload_from_torque,
        torque=f"{at}/book-meant",
        **frictions(w, at, task.book_state, task.book_state),
    )
    source = f"{CAREFUL_END} the preload that the book's torque gives as the book means it"
    return _kept(w, f"{at}/clamp-of-book", "force", careful(meant.draws, "low"), source, (meant.name,)).name


def _window(w: Workings, at: str, on_threads: Condition, on_heads: Condition, clamp: str) -> GreaseWindow:
    """The window of one grease: torques at the bolt, turned into settings by the wrench's own error."""
    one = on_threads == on_heads
    key = f"{at}/on/{on_threads.id}" + ("" if one else f"+{on_heads.id}")
    takes = frictions(w, at, on_threads, on_heads)

    def edge(name: str, engine: Callable[..., Any], **also: str) -> Got:
        w.work_out(f"{key}/{name}-at-bolt", engine, **takes, **also)
        return w.work_out(
            f"{key}/{name}-set", tools.setting_for_torque, torque=f"{key}/{name}-at-bolt", wrench_factor=f"{at}/wrench-factor"
        )  # fmt: skip

    yields = edge("yields", window.torque_at_yield, yield_stress=f"{at}/yield-stress", **section(at))
    breaks = edge("breaks", window.torque_at_break, tensile_strength=f"{at}/tensile-strength", **section(at))
    strips = edge("strips", torque_from_preload, preload=f"{at}/strips")
    low = None
    if clamp:
        keeps = edge("keeps", torque_from_preload, preload=clamp)
        low = careful(keeps.draws, "high")
        _kept(w, f"{key}/low", "torque", low, f"{CAREFUL_END} the settings that keep the clamp", (keeps.name,))
    high, strips_at = careful(yields.draws, "low"), careful(strips.draws, "low")
    first = strips if strips_at < high else yields
    _kept(w, f"{key}/high", "torque", min(high, strips_at), f"{CAREFUL_END} the settings that hurt", (first.name,))
    may_break = careful(breaks.draws, "low")
    _kept(w, f"{key}/may-break", "torque", may_break, f"{CAREFUL_END} the settings that break", (breaks.name,))
    return GreaseWindow(on_threads, on_heads, low, min(high, strips_at), may_break, strips_at < high, key)


def _used(w: Workings, at: str, task: BoltTask, windows: tuple[GreaseWindow, ...], clamp: str) -> GreaseWindow | None:
    """The window of what is really on the bolts."""
    if task.grease is None or any(state.clean_first for state in task.grease):
        return None
    on_threads, on_heads = task.grease
    for found in windows:
        if found.threads == on_threads and found.heads == on_heads:
            return found
    return _window(w, at, on_threads, on_heads, clamp)


def _setting(task: BoltTask, used: GreaseWindow | None) -> tuple[float | None, bool, bool]:
    """What to set, whether it is the book's own, and whether the book must be asked about.

    The book wins where its torque holds with what is really on the bolts, and where it means just this grease and is
    the lower. Where it means this grease and would hurt these bolts, head mark or unit is wrong: nothing is set before
    that is known.
    """
    if used is None or used.empty:
        return None, False, False
    if task.book_torque is not None and breaks(task):  # a wrong unit, or a wrong bolt
        return None, False, True
    if task.book_torque is not None:
        book = task.book_torque.spread.middle()
        if used.holds(book):
            return book, True, False
        if used.is_one and used.threads == task.book_state:
            return (None, False, True) if book > used.high else (book, True, False)
    if used.low is None:
        return None, False, False
    return on_a_mark(used, task.mark), False, False


def on_a_mark(one: GreaseWindow, mark: float) -> float | None:
    """The middle of a window, rounded down to a mark of the wrench or half of one; None where no mark lies in it."""
    if one.low is None or one.empty:
        return None
    middle = (one.low + one.high) / 2
    settings = (float(floor_to_mark(middle, step)) for step in (mark, mark / 2))
    return next((setting for setting in settings if one.holds(setting)), None)


def _passes(setting: float, mark: float) -> tuple[Pass, ...]:
    """The passes on the wrench's marks, never up; the last ones at the setting itself."""
    shares = tuple(row.share for row in ways.pass_shares())
    return tuple(
        replace(one, torque=setting) if one.share == shares[-1] else one for one in passes(setting, shares, mark)
    )


def _why(by_book: bool) -> str:
    return "the book's, which holds" if by_book else "middle of the window, rounded down to a mark of the wrench"


def _held(w: Workings, at: str, used: GreaseWindow, task: BoltTask) -> tuple[Margin, ...]:
    """What one bolt holds at the setting, how it presses on the face, and the margin against slip."""
    takes = frictions(w, at, used.threads, used.heads)
    w.work_out(f"{at}/torque", tools.torque_at_bolt, setting=f"{at}/setting", wrench_factor=f"{at}/wrench-factor")
    w.work_out(f"{at}/preload", preload_from_torque, torque=f"{at}/torque", **takes)
    w.work_out(
        f"{at}/under-head",
        pressure_under_head,
        preload=f"{at}/preload",
        washer_diameter=f"{at}/washer-face",
        hole_diameter=f"{at}/clearance-hole",
    )
    if task.clamp_needed is None:
        return ()
    return (Margin("slip", "driving", w[f"{at}/preload"], w[f"{at}/clamp-needed"]),)


def _limits(w: Workings, at: str, used: GreaseWindow) -> tuple[Margin, ...]:
    """Where one bolt yields and breaks under the wrench, and the margin of the housing thread against that."""
    takes = frictions(w, at, used.threads, used.heads)
    in_thread = {name: takes[name] for name in ("pitch", "pitch_diameter", "friction_thread")}
    w.work_out(f"{at}/yields", preload_at_yield, yield_stress=f"{at}/yield-stress", **in_thread, **section(at))
    w.work_out(f"{at}/breaks", preload_at_break, tensile_strength=f"{at}/tensile-strength", **in_thread, **section(at))
    return (Margin("stripping", "tightening", w[f"{at}/strips"], w[f"{at}/breaks"]),)


def _tool(task: BoltTask, setting: float, answers: dict[str, str]) -> None:
    """Whether the wrench spans the setting."""
    if task.wrench is not None and "wrench" not in task.answers:
        spans = tools.wrench_spans(setting, task.wrench.least, task.wrench.greatest)
        answers["wrench"] = "within" if bool(spans) else "outside"


def _by_book(w: Workings, at: str, used: GreaseWindow) -> None:
    """What the book's torque would do to these bolts."""
    w.work_out(
        f"{at}/book-at-bolt", tools.torque_at_bolt, setting=f"{at}/book-torque", wrench_factor=f"{at}/wrench-factor"
    )
    takes = frictions(w, at, used.threads, used.heads)
    w.work_out(f"{at}/preload-by-book", preload_from_torque, torque=f"{at}/book-at-bolt", **takes)


def _hands(w: Workings, at: str, task: BoltTask, is_set: bool) -> None:
    """What it takes to break the old bolts loose, and what to pull at a bar for the new torque."""
    old = f"{at}/book-torque" if task.book_torque is not None else f"{at}/setting"
    w.work_out(f"{at}/loosening", tools.torque_to_break_loose, torque=old, times=f"{at}/loosening-times")
    w.work_out(
        f"{at}/loosening-by",
        tools.multiplier,
        torque=f"{at}/loosening",
        ratio=f"{at}/multiplier-ratio",
        efficiency=f"{at}/multiplier-efficiency",
        reaction_arm=f"{at}/multiplier-arm",
    )
    if is_set:
        w.work_out(f"{at}/bar", tools.bar_for_pull, torque=f"{at}/setting", pull=f"{at}/hard-pull")
