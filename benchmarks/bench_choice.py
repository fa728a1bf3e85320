"""Choice: a trouble to all its sheets in JSON, every draw new; what the draws cost, and the most memory that it took."""

from __future__ import annotations

import subprocess
import sys
import time
from datetime import date
from itertools import count

from axlewright.plan.choice_of import choice_task
from axlewright.plan.drawn_up import draw_up
from axlewright.plan.reckon.choice import made_out
from axlewright.render import Show, render
from axlewright.store import DEMO, Folder
from axlewright.yard import Trouble
from benchmarks.clock import Bench, median_ms

TODAY = date(2026, 8, 28)
YARD = Folder(DEMO).read()
NUMBER = 6
SEEDS = count()
MEMORY = "import resource\nfrom benchmarks.bench_choice import json_of\njson_of()\nprint(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)"


def json_of() -> bytes:
    """All sheets as data; the trouble has an id of its own each time, so that nothing of the choice is at hand."""
    plain = YARD.trouble(NUMBER)
    one: Trouble = plain.model_copy(update={"id": f"{plain.id}-{next(SEEDS)}"})
    return render(draw_up(YARD, one, TODAY), Show(), "json")


def warm_page() -> bytes:
    """The same again, nothing changed."""
    return render(draw_up(YARD, YARD.trouble(NUMBER), TODAY), Show(), "json")


def choice_ms(draws: int) -> float:
    """The choice alone over so many trajectories, each in five seasons."""
    runs, took = (5, []) if draws <= 20_000 else (1, [])
    for _ in range(runs):
        task = choice_task(YARD, YARD.trouble(NUMBER), TODAY, next(SEEDS), draws)
        start = time.perf_counter()
        made_out(task, {})
        took.append((time.perf_counter() - start) * 1e3)
    return sorted(took)[len(took) // 2]


def growth(draws: int) -> float:
    """Time over that of a tenth of the draws."""
    return choice_ms(draws) / choice_ms(draws // 10)


def memory() -> float:
    """The most memory of a process that does it once [MB]."""
    ran = subprocess.run([sys.executable, "-c", MEMORY], capture_output=True, text=True, check=True)
    return float(ran.stdout)


def benches() -> list[Bench]:
    return [
        Bench("most memory of a process that does it once", memory, "MB", 400.0),
        Bench(
            "trouble to all sheets in JSON, 2,048 draws, new each time", lambda: median_ms(json_of, 7, 1), bound=500.0
        ),
        Bench("the same, opened again", lambda: median_ms(warm_page, 7, 1)),
        Bench("choice alone, 2,048 trajectories, 5 seasons each", lambda: choice_ms(2048)),
        Bench("20,480 over 2,048 (straight: 10)", lambda: growth(20_480), "x", 14.0),
        Bench("204,800 over 20,480 (straight: 10)", lambda: growth(204_800), "x", 14.0),
    ]
