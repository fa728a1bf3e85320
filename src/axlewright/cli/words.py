"""What each command is called, takes and says in its help. Nothing heavy is imported here; every example is a test."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

Takes = tuple[tuple[str, ...], dict[str, Any]]


@dataclass(frozen=True, slots=True)
class CommandWords:
    """The help of one command."""

    does: str
    examples: tuple[str, ...]
    takes: tuple[Takes, ...] = field(default=())
    says: str = ""


def option(*flags: str, **options: Any) -> Takes:
    return flags, options


YARD = option(
    "--yard",
    metavar="YARD",
    default=None,
    help="the yard's folder, its .db file, or the URL of its database (default: AXLEWRIGHT_YARD, else ./yard)",
)
WHO = option("--as", dest="who", metavar="NAME", default="", help="who does it")
ON = option("--on", metavar="DATE", default=None, help="date taken as today, as 2026-08-28")
TROUBLE = option("trouble", metavar="TROUBLE", type=int, help="the trouble's number")
TO = option(
    "--to", metavar="FILE", default=None, help="write a file; its ending says the format: .pdf .html .txt .json"
)
PAPER = option(
    "--paper", choices=("A4", "Letter"), default=None, help="paper of a PDF (default: the yard's own, else A4)"
)
MEASURES = option("--measures", choices=("metric", "us"), default=None, help="units shown (default: the yard's own)")
DECIMAL = option("--decimal", choices=(".", ","), default=None, help="decimal mark shown")
LOOKING = (MEASURES, DECIMAL, PAPER)
TABLE = option("--to", metavar="FILE", default=None, help="write a table for a spreadsheet: .csv")

COMMANDS: dict[str, CommandWords] = {
    "demo": CommandWords(
        does="do the main job on the demo yard and say what to try next",
        examples=("axlewright demo", "axlewright demo --to out"),
        takes=(
            option("--to", metavar="FOLDER", default="out", help="where its sheets go (default: out)"),
            option("--port", type=int, default=8765, help="port of the local page it tells of"),
            *LOOKING,
        ),
    ),
    "serve": CommandWords(
        does="open the yard as pages on this machine",
        says="Answers on 127.0.0.1 only. Without --yard it serves a copy of the demo yard.",
        examples=("axlewright serve --port 8765", "axlewright serve --yard my-yard"),
        takes=(YARD, option("--port", type=int, default=8765, help="port (default: 8765)"), ON),
    ),
    "lay-out": CommandWords(
        does="lay out a new yard: a folder of text files to fill in, or a database",
        examples=("axlewright lay-out my-yard", "axlewright lay-out my-yard.db"),
        takes=(
            option(
                "folder",
                metavar="YARD",
                help="a folder or a .db file that does not exist yet, or the URL of an empty database",
            ),
        ),
    ),
    "lookover": CommandWords(
        does="find every mistake in a yard",
        examples=("axlewright lookover my-yard",),
        takes=(option("folder", metavar="YARD", help="the yard's folder or database"),),
    ),
    "corners": CommandWords(
        does="every corner of the yard: what is known, may it work, may it go on the road",
        examples=(
            "axlewright corners",
            "axlewright corners --yard my-yard --json",
            "axlewright corners --to corners.csv",
        ),
        takes=(YARD, ON, TABLE, DECIMAL),
    ),
    "seen": CommandWords(
        does="say what was seen and read the verdicts; with a corner it opens a trouble",
        says="Say what was seen at a wheel and read whether it may work and go on the road.\n"
        "With a corner, spelled machine/front-left, the findings are kept and a trouble is opened.",
        examples=(
            "axlewright seen plug=paste level=at-mark where=wheel-side",
            "axlewright seen bramble/front-left plug=flakes level=low --clock 3370",
            "axlewright seen --list",
        ),
        takes=(
            option(
                "words", metavar="[CORNER] FINDING=GRADE", nargs="*", help="a corner, then findings with their grades"
            ),
            option("--list", action="store_true", help="list the findings and their grades"),
            option("--clock", metavar="HOURS", default=None, help="what the clock reads, as 4730 or 'about 4730'"),
            option(
                "--threshing",
                action="store_true",
                help="that clock is the threshing or cutting clock, not the engine's",
            ),
            option("--photo", metavar="FILE", default=None, help="a photo of it; with a corner it is kept"),
            option("--preview", action="store_true", help="judge, keep nothing"),
            YARD,
            WHO,
            ON,
            TO,
            *LOOKING,
        ),
    ),
    "find-out": CommandWords(
        does="what to find out next for a trouble: each look and question by what it is worth",
        says="What to find out next for a trouble: each look and telephone call by what it would save you,\n"
        "less the time it takes; what is done by then, whom to ring, and the date to decide by.",
        examples=("axlewright find-out 6", "axlewright find-out 8 --json", "axlewright find-out 8 --to courses.csv"),
        takes=(TROUBLE, YARD, ON, TABLE, *LOOKING),
    ),
    "settle": CommandWords(
        does="take a course for a trouble",
        says="Take one of the nine courses: run, run with checks, reseal, fit a spare, fit a used drive,\n"
        "fit a rebuilt exchange, rebuild now, hire out, park.",
        examples=("axlewright settle 6 fit-spare", "axlewright settle 8 run with checks --as owner"),
        takes=(TROUBLE, option("course", metavar="COURSE", nargs="+", help="one of the nine"), YARD, WHO, ON),
    ),
    "walk-round": CommandWords(
        does="what was seen at the machine, box by box; it turns table sheets into shop sheets",
        says="Without answers: every box, what the yard knows of it, and which are open.\n"
        "When the last box has its answer the walk-round is done.",
        examples=(
            "axlewright walk-round 6",
            'axlewright walk-round 6 walk-round/slope-along="1 %" header=off walk-round/jack-plate=kept',
        ),
        takes=(
            TROUBLE,
            option("values", metavar="NAME=VALUE", nargs="*", help="what was seen; kept: as the yard knew it"),
            YARD,
            WHO,
            ON,
        ),
    ),
    "move": CommandWords(
        does="move a drive to a corner, the shelf or the bench; without TO, tell where it has been",
        says="What sits at the corner already goes to --out-to. With --read its machine's clock is kept too, and the\n"
        "drive's own hours are counted to that hour.",
        examples=(
            "axlewright move linnet-spare",
            "axlewright move broad-spare bramble/front-left --out-to bench --read 3371 --clock engine --preview",
            "axlewright move box-spare bench",
        ),
        takes=(
            option("drive", metavar="DRIVE", help="a drive, by its id, its name or a number written on it"),
            option("to", metavar="TO", nargs="?", help="machine/front-left, shelf, bench or away"),
            option("--out-to", choices=("shelf", "bench", "away"), default=None, help="where what sits there goes"),
            option("--read", metavar="HOURS", default=None, help="what the machine's clock reads"),
            option("--clock", choices=("engine", "threshing"), default=None, help="which clock that is"),
            option(
                "--hours", metavar="HOURS", default=None, help="the drive's own hours, where they were counted anew"
            ),
            option("--about", metavar="HOURS", default=None, help="by how much those may be off"),
            option("--trouble", metavar="TROUBLE", default=None, help="the trouble that it belongs to"),
            option("--over", metavar="WORDS", default="", help="what was changed over to fit that side"),
            option("--photo", metavar="FILE", default=None, help="a photo of it, kept with the move"),
            option("--preview", action="store_true", help="say what would move, and write nothing"),
            YARD,
            WHO,
            ON,
        ),
    ),
    "warranty": CommandWords(
        does="the warranty on a drive: write it down, or tell what is left of it",
        says="Days and hours, whichever run out first. It begins when the drive is fitted, unless it was said to begin\n"
        "on the day it was bought. Days run on the shelf too; hours only at a machine, by its clocks.",
        examples=(
            "axlewright warranty linnet-spare",
            'axlewright warranty broad-spare --days 90 --hours 120 --paper "receipt 44"',
        ),
        takes=(
            option("drive", metavar="DRIVE", help="a drive, by its id, its name or a number written on it"),
            option("--days", metavar="DAYS", default=None, help="it ends after so many days"),
            option("--hours", metavar="HOURS", default=None, help="it ends after so many hours of the drive's own"),
            option("--begins", choices=("fitted", "bought"), default="fitted", help="from which day (default: fitted)"),
            option("--given-by", metavar="NAME", default="", help="who answers for it"),
            option("--paper", metavar="WORDS", default="", help="the paper that says so, as a receipt's number"),
            option("--photo", metavar="FILE", default=None, help="a photo of that paper"),
            YARD,
            WHO,
            ON,
        ),
    ),
    "photo": CommandWords(
        does="keep a photo of a machine or a drive, or tell which are kept",
        says="A jacking point, the flange, a plate. It is turned upright, made small, and its position taken out.",
        examples=("axlewright photo bramble", "axlewright photo broad-spare"),
        takes=(
            option("thing", metavar="THING", help="a machine or a drive, by its id or name"),
            option("photo", metavar="FILE", nargs="?", default=None, help="the photo: JPEG, PNG or WebP"),
            YARD,
            WHO,
            ON,
        ),
    ),
    "take-back": CommandWords(
        does="take the last change to the yard back; once more, and it counts again",
        says="Nothing is wiped out: what was written is kept and counts no longer, what it replaced stands as before.",
        examples=("axlewright take-back --preview",),
        takes=(option("--preview", action="store_true", help="say what it is, and write nothing"), YARD, WHO),
    ),
    "take-in": CommandWords(
        does="take in what others wrote: machines, hours, oil samples, rain as CSV; hours that machines send; a whole yard",
        says="Takes in a table (.csv .txt .tsv) of machines, clock hours, oil samples or daily rain; machine hours by ISO 15143-3\n"
        "(.xml, .json, or an https address with the owner's own token); or a whole yard (.zip .db) into one that is blank.\n"
        "Whole or not at all. What the file leaves open is asked, never guessed; --preview says what would change.",
        examples=(
            "axlewright take-in --list",
            "axlewright take-in hours.csv --preview",
            "axlewright take-in rain.csv --unit rain=mm --station 'Low Meadow'",
        ),
        takes=(
            option(
                "file", metavar="FILE", nargs="?", default=None, help="a file, or an address that begins with https://"
            ),
            option("--preview", action="store_true", help="say what would change and what is wrong; keep nothing"),
            option("--list", action="store_true", help="list the tables, their columns and what they may be called"),
            option("--table", choices=("machines", "hours", "oil", "rain"), default=None, help="what the table is"),
            option("--column", metavar="NAME=HEADER", action="append", help="the header of a column; - for none"),
            option(
                "--unit", metavar="NAME=UNIT", action="append", help="the unit of a column, as rain=mm, elements=ppm"
            ),
            option("--decimal", choices=(".", ","), default=None, help="decimal mark of its numbers"),
            option(
                "--dates", choices=("day-first", "month-first"), default=None, help="what stands first in its dates"
            ),
            option("--machine", metavar="NAME", default="", help="the machine, where the file names none"),
            option("--drive", metavar="NAME", default="", help="the drive, where the file names none"),
            option("--station", metavar="NAME", default="", help="the station of its rain, where the file names none"),
            option("--clock", choices=("engine", "threshing"), default=None, help="which clock a column of hours is"),
            option("--new-clock", metavar="LINE", type=int, action="append", help="a new clock begins on this line"),
            option("--leave-out-bad-lines", action="store_true", help="take in the lines that nothing is wrong with"),
            option("--token-from", metavar="NAME", default=None, help="environment variable or file with the token"),
            YARD,
            WHO,
        ),
    ),
    "put-by": CommandWords(
        does="close a trouble; nothing comes after it",
        examples=("axlewright put-by 6",),
        takes=(TROUBLE, YARD, WHO, ON),
    ),
    "draw-up": CommandWords(
        does="draw up the sheets of a trouble, as far as its verdicts allow",
        says="Draw up the sheets of a trouble, as far as its verdicts allow, and freeze them under a key.\n"
        "The key stands at the foot of every sheet; with it the same sheets can be printed again at any time.",
        examples=(
            "axlewright draw-up 6",
            "axlewright draw-up grease-and-torque --to blank.pdf",
            "axlewright draw-up linnet --to ready-card.pdf",
            "axlewright draw-up 6 bolts/grease=moly-paste",
            "axlewright draw-up 6 --list",
            "axlewright draw-up 6 --to pack.pdf --paper Letter",
            "axlewright draw-up 6 --preview",
        ),
        takes=(
            option(
                "trouble",
                metavar="TROUBLE",
                nargs="?",
                default=None,
                help="the trouble's number, the key of a pack drawn up before, or a blank sheet by name: first-look (if none is named), raised-corner, grease-and-torque, re-tighten-log, buyers-list",
            ),
            option(
                "values",
                metavar="NAME=VALUE",
                nargs="*",
                help="answers of this trouble, kept first: bolts/grease=anti-seize bolts/turns-by-hand=9"
                " bolts/book-torque='380 N·m' wheel/mass='520 kg'; kept takes over what the yard knew before",
            ),
            option("--preview", action="store_true", help="draw the sheets and keep nothing"),
            option(
                "--list",
                action="store_true",
                help="list every question, what is known for it, how, and what is missing",
            ),
            YARD,
            WHO,
            ON,
            TO,
            *LOOKING,
        ),
    ),
    "reading": CommandWords(
        does="write what was read at a step of the step card, a step that was done, or an after-check",
        says="Without values: where the step card stands. A bare number is in the unit that the card prints.\n"
        "A hold is passed by readings inside their bands and a second look by name; nothing else passes it.",
        examples=(
            "axlewright reading 9",
            'axlewright reading 9 jack-lean="1 deg"',
            "axlewright reading 9 jack-gauge=110 plate-sink=4 --typed-back --revision C",
            "axlewright reading 5 wheel-nuts=still --clock 2600",
            "axlewright reading 9 --to readings.csv",
        ),
        takes=(
            TROUBLE,
            option(
                "values",
                metavar="STEP=VALUE",
                nargs="*",
                help="a reading and its value; a step=done or 'not done'; an after-check and what it showed;"
                " set-down=HOURS when the machine stands on its wheels",
            ),
            option("--begin", action="store_true", help="begin the step card first; a newer one voids the older paper"),
            option("--typed-back", action="store_true", help="this stands on a paper card"),
            option("--revision", metavar="LETTER", default="", help="letter of the paper"),
            option("--up-to", metavar="STEP", default=None, help="number of the last step that was done on the paper"),
            option("--seen-by", metavar="NAME", default="", help="who looked second"),
            option("--time", metavar="TIME", default="", help="time of day, as 14:20"),
            option("--clock", metavar="HOURS", default=None, help="what the clock reads at an after-check"),
            option("--threshing", action="store_true", help="that clock is the threshing or cutting clock"),
            option("--photo", metavar="FILE", default=None, help="a photo of it, kept with what was read"),
            YARD,
            WHO,
            ON,
            TABLE,
        ),
    ),
    "due": CommandWords(
        does="what must be looked at next, by clock or day",
        says="After-checks by the clock as it will read and by day, and corners that nobody has looked at.\n"
        "A calendar stands a look on the day by which the clock may read so; the reading counts.",
        examples=(
            "axlewright due",
            "axlewright due --within 50h",
            "axlewright due --to due.ics",
            "axlewright due --to due.pdf",
            "axlewright due --to due.csv",
        ),
        takes=(
            option("--within", metavar="TIME", default=None, help="hours of the clock or days, as 50h or 14d"),
            option(
                "--to",
                metavar="FILE",
                default=None,
                help="write a file: .ics a calendar; .csv a table; .pdf .html .txt .json",
            ),
            YARD,
            ON,
            *LOOKING,
        ),
    ),
    "keep": CommandWords(
        does="take a snapshot of the yard while others write to it",
        says="Everything: records, packs, photos, who changed what and when. Without --to it stands beside the yard,\n"
        "with the time in its name. put-back puts one back.",
        examples=("axlewright keep", "axlewright keep --to kept.zip"),
        takes=(
            option("--to", metavar="FILE", default=None, help="a .zip, or a .db; never over one that is there"),
            option(
                "--renew",
                action="store_true",
                help="then bring a database that an earlier version kept up to date",
            ),
            YARD,
            WHO,
        ),
    ),
    "put-back": CommandWords(
        does="put a snapshot back in place of all that the yard holds now, which is kept first",
        says="Without a file it lists the snapshots that stand beside the yard.",
        examples=("axlewright put-back",),
        takes=(
            option("file", metavar="FILE", nargs="?", default=None, help="a .zip or a .db that keep or hand-out made"),
            YARD,
            WHO,
        ),
    ),
    "hand-out": CommandWords(
        does="the whole yard as one zip, with packs and photos; or as a folder, or a database",
        examples=("axlewright hand-out --to yard.zip", "axlewright hand-out --to yard.db"),
        takes=(
            option(
                "--to",
                metavar="FILE",
                required=True,
                help="yard.zip; a folder or a .db that is not there yet; the URL of an empty database",
            ),
            YARD,
            WHO,
        ),
    ),
    "formula": CommandWords(
        does="one formula by its name: values typed with their units in, the answer with its unit out",
        says="Any formula of the house by its name, with values typed with their units.\n"
        "Without values it says what it takes and gives an example.",
        examples=(
            'axlewright formula bolt-window thread=M16 head=8.8 grease=anti-seize engaged="26 mm" clamp="40 kN"',
            'axlewright formula adapter-setting torque="210 lbf·ft" wrench-length="20 in" adapter-length="2 in" '
            'adapter-angle="0°" --measures us',
            "axlewright formula turns-by-hand",
            "axlewright formula --list crib",
        ),
        takes=(
            option(
                "words", metavar="NAME KEY=VALUE", nargs="*", help="the formula, then what goes in, as torque=340Nm"
            ),
            option("--list", action="store_true", help="list every formula; with a word those that have it"),
            option(
                "--why", action="store_true", help="say the source, where it is valid, and what each number rests on"
            ),
            option("--measures", choices=("metric", "us"), default="metric", help="units shown (default: metric)"),
            option("--decimal", choices=(".", ","), default=".", help="decimal mark typed and shown (default: .)"),
            TABLE,
        ),
    ),
}
