"""formula: one function of the formulary with typed values; without values, what it takes."""

from __future__ import annotations

import json
import shutil
import textwrap
from argparse import Namespace
from collections.abc import Iterable, Mapping

from axlewright.cli import tables
from axlewright.formulary import Formula, formula, said
from axlewright.formulary.ask import ask, headline
from axlewright.formulary.call import Answer, example_of
from axlewright.formulary.examples import texts_to_try
from axlewright.formulary.families import families, in_order
from axlewright.formulary.ranges import ranges
from axlewright.formulary.slots import Slot
from axlewright.yard import Fault, Faults

NAME, VALUE = 24, 20  # letters of the first two columns


def run(args: Namespace) -> int:
    names = [word for word in args.words if "=" not in word]
    if args.list or not args.words:
        return listed(args, names)
    if not names:
        raise Faults(Fault(args.words[0], "Which formula?", "Write its name first: formula bolt-window thread=M16 ..."))
    if len(names) > 1:
        right = f'What goes in is written NAME=VALUE, with quotes where it has a space: torque="340 lbf·ft". {takes(names[0])}'
        raise Faults(Fault(names[1], f"{names[1]} has no =.", right))
    texts = typed([word for word in args.words if "=" in word])
    found = formula(names[0])
    if not texts and found.takes:
        return described(args, found)
    return answered(args, ask(found.name, texts, args.measures, args.decimal))


def typed(pairs: Iterable[str]) -> dict[str, str]:
    """NAME=VALUE pairs.

    Raises:
        Faults: one name comes twice
    """
    texts: dict[str, str] = {}
    for pair in pairs:
        key, _, text = pair.partition("=")
        name = key.strip().replace("_", "-").lower()
        if name in texts:
            raise Faults(Fault(name, f"It is typed twice, as {texts[name]} and as {text}.", "Type it once."))
        texts[name] = text
    return texts


def takes(name: str) -> str:
    try:
        return f"It takes {', '.join(slot.key for slot in formula(name).takes)}."
    except Faults:
        return ""


def listed(args: Namespace, words: list[str]) -> int:
    """Every function by family; with words only those whose name or title has all of them."""
    wanted = [word.casefold() for word in words]

    def fits(one: Formula) -> bool:
        return all(word in f"{one.name} {said.said_name(one.name)} {one.title}".casefold() for word in wanted)

    if args.json:
        every = [{"formula": one.name, "title": one.title} for one in in_order() if fits(one)]
        print(json.dumps({"formulas": every}, ensure_ascii=False, indent=1))
        return 0
    shown = 0
    for family in families():
        rows = [one for group in family.groups for one in group.formulas if fits(one)]
        if rows and not args.quiet:
            print(f"{family.name[0].upper()}{family.name[1:]}")
        for one in rows:
            print(f"  {one.name:{NAME + 4}} {one.title}" if not args.quiet else one.name)
        shown += len(rows)
    if not shown:
        raise Faults(Fault(" ".join(words), "No function has that in its name or title.", "formula --list shows all."))
    if not args.quiet:
        print("\nformula NAME says what it takes, with an example.")
    return 0


def described(args: Namespace, found: Formula) -> int:
    """What a function takes, gives, and an example to type."""
    if args.json:
        print(json.dumps(said.formula_data(found), ensure_ascii=False, indent=1))
        return 0
    print(f"{found.name}: {found.title}.")
    for line in wrapped(found.words):
        print(line)
    print("\nIt takes")
    allowed = ranges(found)
    texts = said.as_typed(found, texts_to_try(found), args.measures, args.decimal)
    for slot in found.takes:
        span = said.span_of(slot, allowed[slot.name], args.measures, args.decimal) if slot.name in allowed else ""
        tell(slot, span, texts)
    print("\nIt gives")
    for slot in found.gives:
        row(said.name_of(slot.name), "", slot.words)
    print()
    because(found)
    if texts:
        print(f"\nTry\n  axlewright {said.command(found.name, texts)}")
    return 0


def tell(slot: Slot, span: str, texts: Mapping[str, str], at: str = "") -> None:
    """One thing that is typed: its name, what it is, an example or its choices, and its range."""
    key = f"{at}{slot.key}"
    if slot.form == "structure":
        row(key + (".1, .2 ..." if slot.many else ""), "", f"{slot.words}; its parts:")
        for part in slot.fields:
            tell(part, "", texts, f"{key}.1." if slot.many else f"{key}.")
        return
    taken, such = said.default_of(slot), texts.get(key)
    notes = [
        "" if slot.needed else "may be left out",
        slot.words,
        span,
        f"{taken} where nothing is typed" if taken else "",
    ]
    if slot.choices:
        notes.append(f"one of: {', '.join(slot.choices)}" if len(slot.choices) < 3 else "one of these:")
    elif such or slot.needed:
        notes.append(f"such as {such or example_of(slot)}")
    row(key, "", "; ".join(filter(None, notes)))
    for choice in slot.choices if len(slot.choices) > 2 else ():
        row("", "", f"  {choice}")


def answered(args: Namespace, answer: Answer) -> int:
    """The values that a function gave."""
    if tables.is_asked(args):
        from axlewright.desk.tables import formula_table  # the desk is much to import for a formula on a screen

        tables.write(args, formula_table(answer))
        if not args.json:
            return 0
    if args.json:
        print(json.dumps(said.answer_data(answer, args.decimal), ensure_ascii=False, indent=1))
        return 0
    if not args.quiet:
        print("\n".join([*textwrap.wrap(headline(answer, args.decimal), width()), ""]))
    for value in answer.values:
        name, shown = said.name_of(value.name), said.spelled(value, args.decimal)
        if args.quiet:
            print(f"{name} {shown}")
        else:
            row(name, shown, value.words)
    if args.why:
        print()
        why(args, answer)
    return 0


def why(args: Namespace, answer: Answer) -> None:
    """Where it comes from, what it holds for, and what each number rests on."""
    because(answer.formula)
    print("\nWent in")
    for value in answer.inputs:
        how = (
            "as typed" if value.name.split(".")[0].replace("_", "-") in typed_of(answer) else "taken, nothing was typed"
        )
        row(said.name_of(value.name), said.spelled(value, args.decimal), f"{how}; {value.words}")
    given = {value.name.split(".")[0] for value in answer.inputs}
    for slot in answer.formula.takes:
        if slot.name not in given and (taken := said.default_of(slot)):
            row(slot.key, taken, f"taken, nothing was typed; {slot.words}")
    print("\nBasis")
    print("  what comes out is computed (cp); what was typed is as good as its reading")


def typed_of(answer: Answer) -> set[str]:
    return {key.split(".")[0] for key, text in answer.texts.items() if text.strip()}


def because(found: Formula) -> None:
    for name, words in (("Source", found.source), ("Valid", found.valid)):
        first, *more = textwrap.wrap(words, width() - 10)
        print(f"{name:8}{first}")
        for line in more:
            print(f"        {line}")


def row(name: str, value: str, words: str) -> None:
    """A line of name, value and words; words that are too long go on under themselves."""
    head = f"  {name:{NAME}} " + (f"{value:{VALUE}}  " if value else "")
    first, *more = textwrap.wrap(words, max(width() - len(head), 30), drop_whitespace=False) or [""]
    print((head + first).rstrip())
    for line in more:
        print(" " * len(head) + line.strip())


def wrapped(words: str) -> list[str]:
    return textwrap.wrap(words, width() - 2)


def width() -> int:
    return min(max(shutil.get_terminal_size((100, 24)).columns, 60), 120)
