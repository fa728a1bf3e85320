"""What is known of a trouble's wheel and drive, and of what takes them off, as the task that they are reckoned from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from axlewright.kinds import KINDS
from axlewright.plan.quantities_of import quantities_of, words_of
from axlewright.plan.reckon.lift_task import DriveLifted, Hoist, How, Leg, LiftTask, Loader, Part, Wheel, drive_lifted
from axlewright.quantities import Exact, Normal, Quantity
from axlewright.trade.slings import modes
from axlewright.yard import Trouble, Yard

Quantities = Mapping[str, Quantity]
Words = Mapping[str, str]
OIL = 890.0  # kg/m^3: gear oils 0.87 to 0.90 kg/L, the handier end of what is lifted
LEGS = ("a", "b", "c", "d")
TOLD = {"chain": "chain", "polyester-web": "web strap", "nylon-web": "web strap, nylon", "roundsling": "roundsling"}


def lift_task(yard: Yard, trouble: Trouble) -> LiftTask:
    """Wheel and drive of a trouble, and what takes them off. What nobody read stays empty, and gives no margin."""
    numbers, words = quantities_of(yard, trouble), words_of(yard, trouble)
    how: How = "hook" if words.get("lift-by") == "hook" else "forks"
    return LiftTask(
        drive=_drive(numbers),
        how=how,
        wheel=Wheel(
            mass=numbers["wheel/mass"],
            width=numbers["wheel/width"],
            diameter=numbers["wheel/diameter"],
            standoff=numbers["wheel/standoff"],
            crosswise=words["wheel/on-forks"] == "across",
        ),
        loader=Loader(
            rated=numbers.get("loader/plate"),
            rated_centre=numbers["loader/plate-centre"],
            tipping_line=numbers["loader/axle-to-forks"],
            fork=numbers["loader/fork-length"].spread.middle(),
        ),
        reach=numbers.get("loader/reach"),
        hoist=_hoist(numbers, words) if how == "hook" else None,
        legs=tuple(filter(None, (_leg(name, numbers, words) for name in LEGS))) if how == "hook" else (),
    )


def _drive(numbers: Quantities) -> DriveLifted:
    """The drive, with the trade's guess where nobody weighed or taped it."""
    usual = drive_lifted()
    length, flange = numbers.get("drive/length"), numbers.get("drive/flange")
    oil = numbers.get("oil/volume")
    drive = drive_lifted(
        mass=numbers.get("drive/mass"),
        flange=flange.spread.middle() if flange else usual.flange,
        length=length.spread.middle() if length else usual.length,
        oil=_oil(oil) if oil else None,
    )
    return replace(
        drive,
        along=numbers.get("drive/centre-along", drive.along),
        sideways=numbers.get("drive/centre-right", drive.sideways),
        up=numbers.get("drive/centre-up", drive.up),
    )


def _oil(volume: Quantity) -> Quantity:
    """A full fill as a mass."""
    spread = volume.spread
    if isinstance(spread, Normal):
        mass: Exact | Normal = Normal(spread.mean * OIL, spread.sd * OIL)
    else:
        mass = Exact(spread.middle() * OIL)
    return replace(volume, name="oil", kind=KINDS["mass"], spread=mass, source=f"{volume.source}, at 0.89 kg/L")


def _hoist(numbers: Quantities, words: Words) -> Hoist:
    return Hoist(
        parts=(Part("hoist", numbers.get("hoist/plate")), Part("hook and ring", numbers.get("hoist/hook-tag"))),
        handling=words["hoist/lifts"],
        rolls=words.get("hoist/stands") != "beam",
        mass=numbers.get("hoist/mass"),
        centre=numbers.get("hoist/centre"),
        wheelbase=numbers.get("hoist/castors"),
        hook=numbers.get("hoist/hook-ahead"),
    )


def _leg(name: str, numbers: Quantities, words: Words) -> Leg | None:
    """A leg whose length and bearing place were taped; what nobody says of it counts against it."""
    place = [numbers.get(f"leg-{name}/{axis}") for axis in ("along", "right", "up")]
    length = numbers.get(f"leg-{name}/length")
    along, right, up = (None if one is None else one.spread.middle() for one in place)
    if length is None or along is None or right is None or up is None:
        return None
    made_of = words.get(f"leg-{name}/is", "chain")
    parts = [Part(TOLD[made_of], numbers.get(f"leg-{name}/tag"))]
    if words.get(f"leg-{name}/used") != "straight":
        mode = modes()["chain-choked" if made_of == "chain" else "choked"]
        parts = [replace(parts[0], name=f"{TOLD[made_of]}, choked", factor=mode.factor, said="choked")]
    hoist = numbers.get(f"leg-{name}/hoist-tag")
    if hoist:
        parts.insert(0, Part("chain hoist", hoist))
    told = f"hoist and {TOLD[made_of]}" if hoist else TOLD[made_of]
    stretch = made_of if made_of in TOLD else "chain"
    return Leg(name.upper(), told, (along, right, up), length, tuple(parts), stretch, bool(hoist))  # type: ignore[arg-type]
