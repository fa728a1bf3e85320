"""The sheets of a trouble drawn up, and frozen under a key: what was printed once can be printed again for ever."""

from __future__ import annotations

import re

from pydantic import Field

from axlewright.desk.now import Deed, Now, checked, may, record
from axlewright.plan.drawn_up import draw_up as drawn
from axlewright.plan.drawn_up import will_be_drawn
from axlewright.plan.pack import freeze, key_of
from axlewright.render import Show, json, render
from axlewright.sheets import Pack
from axlewright.store import Store
from axlewright.yard import Beside, Change, Fault, Faults, Stage, Yard

SAYS = "sheets drawn up"


class DrawUp(Deed):
    """The trouble whose sheets are drawn up."""

    trouble: int = Field(ge=1, examples=[3])


@may("owner", "helper")
def draw_up(yard: Yard, deed: DrawUp, now: Now) -> Change:
    """Freeze the sheets of a trouble. A settled one comes to *drawn up*; nothing changes where the same pack is kept.

    Raises:
        Faults: no such trouble
    """
    one, day = yard.trouble(deed.trouble), deed.day(yard, now)
    stages = yard.stages_of(one.number)
    closed, settled = yard.stage(one.number) == "put by", yard.stage(one.number) == "settled"
    if closed or any(stage.pack for stage in stages):
        before = freeze(drawn(yard, one, day))
        if closed or before.key in {stage.pack for stage in stages}:
            return Change(beside=(kept(before),))
    stop = [name for name, _ in will_be_drawn(yard, one, day)] == ["make-safe"]
    said = {
        "id": f"{deed.id or now.new_id()}-drawn-up",
        "trouble": one.number,
        "stage": "drawn up" if settled and not stop else yard.stage(one.number),
        "on": day,
        "note": SAYS,
        "who": now.who,
        "at": now.after(stage.at for stage in stages),
    }
    with_row = yard.with_(Change((record(Stage, **said),)))  # the pack's own revision stands on its sheets
    made = freeze(drawn(with_row, one, day))
    change = checked(yard, (record(Stage, **said, pack=made.key),), now)
    return Change(change.records, (kept(made),))


def kept(pack: Pack) -> Beside:
    """A frozen pack as the file that is kept of it."""
    return Beside(name_of(pack.key), render(pack, Show(), "json"))


def key_in(change: Change) -> str:
    """The key of the pack that a change keeps."""
    return next(one.name for one in change.beside if one.name.startswith("packs/"))[6:22]


def name_of(key: str) -> str:
    return f"packs/{key}.json"


def pack_kept(store: Store, key: str) -> Pack:
    """The pack that was frozen under a key.

    Raises:
        Faults: none was; or its file was changed since
    """
    data = store.file(name_of(key)) if re.fullmatch(r"[0-9a-f]{16}", key) else None
    if data is None:
        what = f"No pack was frozen under {key} in this yard."
        raise Faults(Fault("pack", what, "Its key stands at the foot of each of its sheets."))
    try:
        pack = json.read(data)
    except ValueError:
        pack = None
    if pack is None or key_of(pack) != key:
        what = f"{name_of(key)} is not as it was frozen: somebody changed it."
        raise Faults(Fault("pack", what, "Trust the paper that was printed from it, or draw up the trouble again."))
    return pack
