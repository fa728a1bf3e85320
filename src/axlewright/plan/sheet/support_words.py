"""What the Support sheet says of a corner: what holds it, what could break that, stage by stage, the gauge."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from axlewright.plan.judge import by_margin, printed
from axlewright.plan.judge.margins import least
from axlewright.plan.reckon.holding import STAGES, HeldMargin, Stage
from axlewright.plan.reckon.support import Supported
from axlewright.plan.reckon.unknowns import Unknown, front_axle
from axlewright.plan.sheet.held import GRAVITY, SAID, Told, times
from axlewright.sheets import Note, Numbered, Run, Section, Shown, Table, Text, text
from axlewright.sheets.blocks import Column, Item, Row
from axlewright.trade.supports import frictions
from axlewright.trade.verdicts import HeldRule, held_rules

MOST_ROWS = 4
LARGE = 2000.0  # kg, from which on masses are shown in t
OVER_G = "load over g"
NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
ROWS = {
    "crossing": "Timber crossings",
    "seat": "Seat under the plate",
    "ground": "Ground under it",
    "stand": "Stand",
    "jack": "Jack",
    "side-hold": "Push sideways",
    "chocks": "Chocks on three wheels",
    "tip-slope": "Tips",
}
PLURAL = ("crossing", "chocks")
FAILS = {
    "crossing": "the crib is too weak",
    "seat": "the plate bears on too little wood",
    "ground": "the ground is too soft",
    "stand": "this stand is too small",
    "jack": "this jack is too small",
    "tip-slope": "it tips too soon",
}
TIPPING = ("tip-slope",)
TIPPING_FIND = {
    "mass": "Weigh the machine, header off",
    "front-share": "Weigh both axles, header off; the front’s share",
}
FIND: dict[str, str] = {  # how an input is found out, by its name
    "mass": "Weigh the front axle, header off",
    "front-share": "Weigh the front axle, header off",
    "side-offset": "Weigh each front wheel for the centre of gravity",
    "centre-height": "Height of the centre of gravity",
    "track": "Tape the track",
    "wheelbase": "Tape front axle to rear pivot",
    "pivot-height": "Tape the rear pivot’s height",
    "jack-inboard": "Tape wheel to jack",
    "crib-inboard": "Tape wheel to crib",
    "jack-ahead": "Tape axle to jack",
    "crib-ahead": "Tape axle to crib",
    "lift-height": "Tape the lift point’s height",
    "slope-nose": "Phone level along the machine",
    "slope-towards": "Phone level across the machine",
    "wheel": "Weigh the wheel",
    "drive": "Weigh the drive",
    "rear-axle": "Mass of the rear axle",
    "drive-inboard": "Tape wheel to drive",
    "axle-height": "Tape the front wheel’s axle height",
    "rear-radius": "Tape the rear wheels’ axle height",
}
WAYS = {  # what more of it means, and what less, where it may lie either way
    "side-offset": ("towards this corner", "away from this corner"),
    "slope-nose": ("down to the front", "down to the rear"),
    "slope-towards": ("down to this corner", "down to the other"),
    "jack-ahead": ("ahead", "behind"),
    "crib-ahead": ("ahead", "behind"),
}
CALLS = {  # inputs as they are named where one cannot be
    **{name: said[0].lower() + said[1:] for name, said in FIND.items()},
    "mass": "the machine’s mass", "front-share": "the front axle’s share", "track": "the track", "wheelbase": "the wheelbase",
    "wheel": "the wheel’s mass", "drive": "the drive’s mass", "rise": "the rise at the jack", "held-rise": "the rise on the crib",
    "side-offset": "the centre of gravity’s place across", "jack-inboard": "wheel to jack", "crib-inboard": "wheel to crib",
    "chock-height": "the height of the chocks", "slope-nose": "the ground’s slope along", "slope-towards": "the ground’s slope across",
    "centre-height": "the height of the centre of gravity",
}  # fmt: skip
STAGE_SAYS = {
    "header-off": "Header off, tank empty",
    "jack-takes-it": "Jack takes the load",
    "first-bite": "On wood, first bite",
    "on-the-crib": "Down on the crib",
}


@dataclass(frozen=True, slots=True)
class Say:
    """Texts of one corner; numbers of the held workings stand under names of their own."""

    made: Supported
    told: Told

    @property
    def at(self) -> str:
        return self.made.holding.at

    def mass(self, stage: str, part: str = "corner", *, likely: bool = False) -> Shown:
        """A load as a mass: the heaviest, rounded up, or the likely one."""
        holding = self.made.holding
        name = f"{self.at}/{stage}.{part}"
        if likely:
            self.told.likely.keep(name)
            middle = holding.likely[name].middle()
            return self.told.own(f"{name}/mass", "mass", middle / GRAVITY, OVER_G, made_of=(name,), digits=2)
        case, most = holding.heaviest_case(stage, part)
        of = self.told.keep_held(case, holding.held[case], name)
        return self.told.own(f"held/{name}/mass", "mass", most / GRAVITY, OVER_G, made_of=(of,), digits=2, toward="up")

    def force(self, name: str, newtons: float, toward: str, unit: bool = True) -> Shown:
        return self.told.own(name, "force", newtons, "at the careful end", digits=2, toward=toward, with_unit=unit)

    def length(self, name: str, metres: float, *, toward: str = "nearest", unit: bool = True, digits: int = 3) -> Shown:
        return self.told.own(
            name, "length", metres, "places as taken, at the middle", toward=toward, with_unit=unit, digits=digits
        )


def said_number(count: int) -> str:
    return NUMBERS[count] if count < len(NUMBERS) else str(count)


# what holds, and what could break it
def what_holds(say: Say) -> Section:
    """Weakest first: how many times it holds the heaviest, and the one unknown that could break it."""
    rows = sorted(_rows(say), key=lambda one: one[0])
    items = tuple(item for _, _, item in rows[:MOST_ROWS])
    rest = ", ".join(said for _, said, _ in rows[MOST_ROWS:])
    more = (Note(words=text(f"Stronger: {rest}."), size="small", voice="soft"),) if rest else ()
    nothing = (Note(words=text("Nothing is worked out that could hold it.")),) if not rows else ()
    return Section(
        heading="What holds, and what could break it",
        aside="heaviest we think possible",
        blocks=((Numbered(items=items),) if items else nothing) + more,
    )


def _rows(say: Say) -> list[tuple[float, str, Item]]:
    """Each margin that has an end: over what is wanted of it, said in short, and its row."""
    made = say.made
    rows = []
    for what, name in ROWS.items():
        margin = least(made.margins, what)
        if margin is None or not math.isfinite(margin.at(0.05)):
            continue
        careful, likely = margin.at(0.05), margin.at(0.5)
        lead, words = _said(say, what, name, margin)
        if what == "tip-slope":
            key, middle = f"at {_degrees(careful)}", f"Likely {_degrees(likely)}. "
        else:
            key, middle = times(careful), f"Likely {times(likely)}. "
        item = Item(number=key, lead=lead, words=(*words, " ", Run(voice="soft", words=(middle, *_breaks(say, what)))))
        rows.append((careful / _wanted(what), f"{name[0].lower()}{name[1:]} {key}", item))
    return rows


def _degrees(tangent: float) -> str:
    return f"{math.floor(math.degrees(math.atan(tangent)) + 1e-9)}°".replace("-", "\u2212")


def _wanted(what: str) -> float:
    return max((rule.no_below or 0.0 for rule in held_rules() if rule.line == "HOLDING" and rule.margin == what), default=1.0)  # fmt: skip


def _said(say: Say, what: str, name: str, margin: object) -> tuple[str, Text]:
    """What it holds and what is asked of it."""
    made, at = say.made, say.at
    careful = margin.at(0.05)  # type: ignore[attr-defined]
    if what == "jack":
        rating = say.told.input(f"{at}/jack-rating")
        plate = say.told.own(f"{at}/jack-plate", "mass", rating.si / GRAVITY, OVER_G, made_of=(rating.name,), digits=3)
        asked = say.mass(margin.stage)  # type: ignore[attr-defined]
        return f"{name},", text(plate, " on its plate, asked ", asked, ".")
    if what == "tip-slope":
        return name, text(
            "at this slope, the ground’s taken off; wanted ", f"{math.ceil(math.degrees(math.atan(_wanted(what))))}°."
        )
    if isinstance(margin, HeldMargin):
        holds, asked_for = margin.holds(), margin.asked()
    elif what == "side-hold":
        lightest = min(made.holding.lightest(stage.name) for stage in STAGES if stage.holds == "crib")
        asked_for = 0.05 * lightest + made.holding.likely[f"{at}/pull"].ends()[1]
        holds = careful * asked_for
    else:
        holds, asked_for = careful * made.cribbed.load, made.cribbed.load
    wanted = _wanted(what)
    more = f", wanted {wanted:g} times" if wanted > 1 else ""
    return name, text(
        "hold " if what in PLURAL else "holds ", say.force(f"held/{at}/{what}/holds", holds, "down"),
        ", asked ", say.force(f"held/{at}/{what}/asked", asked_for, "up", unit=False), f"{more}.",
    )  # fmt: skip


def _breaks(say: Say, what: str) -> Text:
    """The one unknown that could break it."""
    made = say.made
    if what == "side-hold":
        return _oily(made)
    if what == "chocks":
        return text("Brake and gear count nothing.")
    sentence = broken_by(say, what, made.unknowns.get(what))
    wood = made.inputs.timber[0] if made.inputs.timber else None
    if what in ("crossing", "seat") and wood and wood.stamp == "unstamped":
        known = "Kind of wood unknown" if wood.wood == "unknown" else "No grade stamp"
        return (*sentence, f" {known}, taken wet and weakest: a stamp proves more.")
    return sentence


def _oily(made: Supported) -> Text:
    """How much of the hold against a push a wet or oily plate costs: a crib topples from some friction on."""
    if made.inputs.rests_on != "crib" or not made.cribbed.layouts:
        return ()
    best = made.cribbed.layouts[0]
    timber = made.inputs.timber[best.crossing_timber]
    high = made.inputs.height_of_crib(made.holding)
    topples = (timber.length - 2 * best.overhang) / 2 / high
    oily, taken = (
        float(min(frictions()[name].value, topples)) for name in ("steel-on-oily-wood", made.inputs.friction)
    )
    return text(f"Wet or oily plate: {_share(1 - oily / taken)} of it is gone. Wipe it.") if oily < taken else ()


def _share(share: float) -> str:
    return "a third" if 0.3 < share < 0.36 else "half" if 0.45 < share < 0.55 else "some"


def broken_by(say: Say, what: str, unknown: Unknown | None) -> Text:
    """The input that could break a margin, and from which value on; with all else at its careful end."""
    if unknown is None or (unknown.at is None and not unknown.settles):
        return text("None of the guesses alone breaks it.")
    find = FIND.get(unknown.name, unknown.name.replace("-", " "))
    if say.made.inputs.rests_on == "stand":
        find = find.replace("crib", "stand")
    if what in TIPPING:
        find = TIPPING_FIND.get(unknown.name, find)
    if unknown.at is None:
        return text(f"No one reading settles it. First: {find[0].lower()}{find[1:]}.")
    value, way = _limit(say, what, unknown), _way(unknown)
    more = unknown.worse > 0 if unknown.at > 0 or not way else unknown.worse < 0  # of its size, whichever way it lies
    if unknown.settles:
        return text(f"{find}: it passes with {'at most' if more else 'at least'} ", value, f"{way}.")
    return text(f"{find}: {'over' if more else 'under'} ", value, f"{way} {FAILS[what]}.")


def _way(unknown: Unknown) -> str:
    """Which way a place or a slope lies that may lie either way."""
    ways = WAYS.get(unknown.name)
    if ways is None or unknown.at is None:
        return ""
    return f" {ways[0] if unknown.at > 0 else ways[1]}"


def _limit(say: Say, what: str, unknown: Unknown) -> Shown:
    """The value at which a margin meets its limit, rounded to the safe side."""
    assert unknown.at is not None
    # what a part carries goes by the front axle's load; which way it tips, by mass and share each for itself
    axle = None if what in TIPPING else front_axle(say.made.holding, unknown)
    signed = unknown.name in WAYS
    more = unknown.worse > 0 if unknown.at > 0 or not signed else unknown.worse < 0
    toward = "down" if more else "up"
    name = f"held/{say.at}/{what}/breaks-at"
    source = "where the margin meets its limit, all else at its careful end"
    if axle is not None:
        return say.told.own(name, "mass", axle, source, digits=3, toward=toward)
    kind = say.made.holding.likely.quantities[f"{say.at}/{unknown.name}"].kind.name
    value = abs(unknown.at) if signed else unknown.at
    on_tool = "%" if kind == "angle" or unknown.name == "front-share" else None
    return say.told.own(name, kind, value, source, digits=2 if kind == "angle" else 3, toward=toward, on_tool=on_tool)


# stage by stage
def stages(say: Say) -> Section:
    """What each support carries at each stage, and how far it is from tipping."""
    unit = not _one_unit(say)
    rows = [_header_on(say, unit)] if _hangs_on(say) else []
    rows += [_stage(say, stage, unit) for stage in STAGES[1:]]
    return Section(
        heading="Stage by stage",
        aside="on other wheel, this corner, rear wheels",
        place="right",
        blocks=(
            Table(
                columns=(
                    Column(heading="", share=3.6),
                    Column(heading="other", to="right", share=1.2),
                    Column(heading="corner", to="right", share=1.2),
                    Column(heading="rear", to="right", share=1.2),
                    Column(heading="tips", to="right", share=0.9),
                    Column(heading="", share=1.75),
                ),
                rows=tuple(rows),
            ),
            Note(words=_stage_note(say), size="small", voice="soft"),
        ),
    )


def _one_unit(say: Say) -> bool:
    """Whether all loads of the table are shown in one unit, so that it need not stand at each of them."""
    holding = say.made.holding
    shown = [holding.heaviest(stage.name, part) for stage in STAGES for part in ("other_wheel", "corner", "rear_pivot")]
    return min(shown, default=0.0) / GRAVITY >= LARGE


def _stage_note(say: Say) -> Text:
    go_if: Text = text(Run(voice="strong", words=("Go if",)), ": no bar until it is on wood. ")
    return text(
        "Heaviest, as ",
        say.mass("jack-takes-it"),
        " on the jack. Refit: upwards. ",
        *go_if,
        "Tips: at the least slope that would take it over.",
    )


def _hangs_on(say: Say) -> bool:
    likely = say.made.holding.likely
    return any(likely[f"{say.at}/{part}"].ends()[1] > 0 for part in ("header", "grain"))


def _header_on(say: Say, unit: bool) -> Row:
    """As it came from the field: never worked in."""
    grain = say.made.holding.likely[f"{say.at}/grain"].ends()[1] > 0
    name = "Header on, tank full" if grain else "Header on"
    cells = _cells(say, STAGES[0], unit)
    return Row(cells=(text(name), *cells, text(Run(voice="must", words=("stop",)))), voice="struck")


def _stage(say: Say, stage: Stage, unit: bool) -> Row:
    word = stage_word(say.made, stage)
    voice = "must" if word == "no" else "strong"
    return Row(cells=(_stage_name(say, stage), *_cells(say, stage, unit), text(Run(voice=voice, words=(SAID[word],)))))


def _cells(say: Say, stage: Stage, unit: bool) -> tuple[Text, ...]:
    """Other wheel, this corner, both rear wheels with their axle, least slope; a support that would lift is said so."""
    holding = say.made.holding
    cells: list[Text] = []
    for part in ("other_wheel", "corner", "rear_pivot"):
        if holding.heaviest(stage.name, part) <= 0:
            cells.append(text(Run(voice="must", words=("lifts",))))
        elif part == "rear_pivot":
            cells.append(text(_rear(say, stage).model_copy(update={"with_unit": unit})))
        else:
            cells.append(text(say.mass(stage.name, part).model_copy(update={"with_unit": unit})))
    _, tips = holding.tips_at(stage.name)
    cells.append(text(_degrees(math.tan(tips))) if tips > 0 else text(Run(voice="must", words=("tips",))))
    return tuple(cells)


def _rear(say: Say, stage: Stage) -> Shown:
    """Both rear wheels: what the pivot brings and the rear axle itself."""
    holding, at = say.made.holding, say.at
    case, pivot = holding.heaviest_case(stage.name, "rear_pivot")
    of = say.told.keep_held(case, holding.held[case], f"{at}/{stage.name}.rear_pivot")
    axle = holding.likely[f"{at}/rear-axle"].ends()[1]
    say.told.likely.keep(f"{at}/rear-axle")
    whole = pivot / GRAVITY + axle
    return say.told.own(f"held/{at}/{stage.name}/rear-wheels", "mass", whole, "pivot’s load over g, and the axle", made_of=(of, f"{at}/rear-axle"), digits=2, toward="up")  # fmt: skip


def _stage_name(say: Say, stage: Stage) -> Text:
    at, likely = say.at, say.made.holding.likely
    if stage.name == "raised":
        rise = say.told.input(f"{at}/rise", digits=3)
        bites = say.made.bites
        return text("Up ", rise, f", {bites} bite{'s' if bites > 1 else ''}")
    if stage.name in ("wheel-off", "drive-off"):
        part = stage.name.removesuffix("-off")
        mass = likely[f"{at}/{part}"].middle()
        shown = say.told.input(f"{at}/{part}", si=mass, digits=2)
        return text(f"{part.capitalize()} off, ", shown)
    if stage.holds == "crib" and say.made.inputs.rests_on == "stand":
        return text("On the stand, first bite" if stage.name == "first-bite" else "Down on the stand")
    return text(STAGE_SAYS[stage.name])


def stage_word(made: Supported, stage: Stage) -> str:
    """The word of one stage, by every rule on a margin of it."""
    mine = [one for one in made.margins if one.stage == stage.name]
    mine += [one for one in made.cribbed.margins if stage.holds == "crib"]
    rules: list[HeldRule] = [rule for rule in held_rules() if rule.line == "HOLDING" and rule.margin]
    words = [by_margin(rule, mine) for rule in rules if any(one.what == rule.margin for one in mine)]
    return printed(words)


def hints() -> Mapping[str, Text]:
    """Words beside what would lift a stop."""
    return {"ground-slope": text(". Read in degrees? 3 % is 1.7°, and 3° is 5.2 %: type the one you mean")}
