"""The command line: one module a command, imported only when it runs, so that --help answers at once."""

from __future__ import annotations

import argparse
import importlib
import os
import sys
from collections.abc import Sequence

from axlewright import VERSION
from axlewright.cli.words import COMMANDS, CommandWords

DONE, STOP, UNUSABLE = 0, 1, 2


class Parser(argparse.ArgumentParser):
    """argparse, with mistakes said in the house's way: what is wrong, what to do, exit code 2."""

    def error(self, message: str) -> None:  # type: ignore[override]  # argparse says NoReturn; exit below never returns
        self.exit(UNUSABLE, f"{self.prog}: {message}\n  {self.prog} --help shows what it takes, with examples\n")


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; its exit code is 0 done, 1 it says stop, 2 input not usable."""
    speak_plainly()
    given = list(sys.argv[1:] if argv is None else argv)
    parser = build()
    if not given:
        parser.print_help()
        return DONE
    args = read(parser, given)
    try:
        command = importlib.import_module(f"axlewright.cli.{args.module}")
        return int(command.run(args))
    except BrokenPipeError:  # the reader of a pipe has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE
    except KeyboardInterrupt:
        return 130
    except Exception as bad:
        from axlewright.cli.mistakes import say

        return say(bad, args.json)


def read(parser: argparse.ArgumentParser, given: Sequence[str]) -> argparse.Namespace:
    """The arguments, in whatever order they were typed: argparse takes no trouble and no NAME=VALUE after an option."""
    args, rest = parser.parse_known_args(given)
    if rest and "=" not in rest[0] and not rest[0].startswith("-") and getattr(args, "trouble", "") is None:
        args.trouble = rest.pop(0)
    listed = next((name for name in ("values", "words") if isinstance(getattr(args, name, None), list)), "")
    if rest and (not listed or any(word.startswith("-") for word in rest)):
        parser.error(f"unrecognized arguments: {' '.join(rest)}")
    if rest:
        setattr(args, listed, [*getattr(args, listed), *rest])
    return args


def speak_plainly() -> None:
    """A console that cannot show a letter gets its nearest, not a crash."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")


def build() -> argparse.ArgumentParser:
    """The parser of all commands."""
    parser = Parser(
        prog="axlewright",
        description="From an oil spot at a wheel to verdicts, shop sheets and steps.",
        epilog="Exit codes: 0 done; 1 draw-up or seen says stop; 2 input not usable.",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"axlewright {VERSION}")
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", required=True, parser_class=Parser)
    for name, words in COMMANDS.items():
        add(commands, name, words)
    return parser


def add(commands: argparse._SubParsersAction[Parser], name: str, words: CommandWords) -> None:
    """One command with its own arguments and those that all share."""
    one = commands.add_parser(
        name,
        help=words.does,
        description=words.says or words.does,
        epilog="examples:\n" + "\n".join(f"  {line}" for line in words.examples),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    for flags, options in words.takes:
        one.add_argument(*flags, **options)
    one.add_argument("--json", action="store_true", help="print JSON for programs")
    one.add_argument("-q", "--quiet", action="store_true", help="say only what was asked for")
    one.set_defaults(module=name.replace("-", "_"), command=name)
