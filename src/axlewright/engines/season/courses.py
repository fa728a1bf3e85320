"""Ways of dealing with a drive in trouble, as a season sees them (E2): what each takes and what can stop it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np

from axlewright.engines.season._ledger import CropAreas, Ledger
from axlewright.kinds import Count, Duration, Share, YesNo

CourseName: TypeAlias = Literal[
    "run", "run with checks", "reseal", "fit a spare", "fit a used drive", "fit a rebuilt exchange", "rebuild now",
    "hire out", "park",
]  # fmt: skip
Source: TypeAlias = Literal["spare", "used", "exchange", "rebuilt"]
OnFind: TypeAlias = Literal["stop", "next idle day", "until it is there"]

NEVER = float(np.inf)
NOTHING = Ledger()


@dataclass(frozen=True, slots=True)
class Life:
    """What a drive has before it, one a draw. Machine hours: from now, or from its first hour where it is put in.

    Attributes:
        fails: until it begins to fail; negative where it has [s]
        lets_go: until it lets go; infinite where it cannot [s]
    """

    fails: Duration = NEVER
    lets_go: Duration = NEVER


@dataclass(frozen=True, slots=True)
class Replacement:
    """A drive that can be put in, one a draw. The same in every course.

    Attributes:
        lead: from ordering it until it is on the yard; infinite where there is none: then the drive in trouble is rebuilt [s]
        life: of the first one put in this season
        next_life: of one put in after that has let go too
    """

    lead: Duration
    life: Life
    next_life: Life


@dataclass(frozen=True, slots=True)
class Job:
    """A piece of work, one a draw.

    Attributes:
        takes: from its beginning until the machine may work again, nights and closed days in it [s]
        labour: hours of people, all together [s]
    """

    takes: Duration
    labour: Duration


@dataclass(frozen=True, slots=True)
class Jobs:
    """The work of all courses, from their task networks.

    Attributes:
        swap: a drive off and another on, where the machine was brought to a stop
        field_swap: the same where it let go, from the recovery on
        reseal: a new seal
        rebuild: the drive on the bench
    """

    swap: Job
    field_swap: Job
    reseal: Job
    rebuild: Job


@dataclass(frozen=True, slots=True)
class Common:
    """All that is drawn once, for every course alike.

    Attributes:
        fitted: what the drive in trouble still has before it
        spare: the spare on the shelf; a lead of infinity where there is none: then a used drive is fetched
        used: a used drive
        exchange: a rebuilt exchange drive
        rebuilt: the drive in trouble after its rebuild; its lead is that of the parts and of the workshop
        jobs: the work
        hire_lead: from calling a hired machine until it works; infinite: not this season [s]
        kit_lead: from ordering a seal kit until it is there [s]
        resealed: what the drive in trouble has before it with a new seal: the leak stopped, the bearings as they were
        road: machine hours on the road for each in the field [-]
        damage: secondary damage if it lets go, in new drives; 0 where there is none [-]
        unsafe_field: chance that it is unsafe, if it lets go in the field [-]
        unsafe_road: chance that it is unsafe, if it lets go on the road [-]
        seen: share of 0 to 1: luck of the checks [-]
        honoured: share of 0 to 1: luck of the warranty [-]
        hire_rate: rate of a hired machine, by that of the own one [-]
    """

    fitted: Life
    resealed: Life
    spare: Replacement
    used: Replacement
    exchange: Replacement
    rebuilt: Replacement
    jobs: Jobs
    hire_lead: Duration
    kit_lead: Duration
    road: Share
    damage: Share
    unsafe_field: Share
    unsafe_road: Share
    seen: Share
    honoured: Share
    hire_rate: Share = 1.0


@dataclass(frozen=True, slots=True)
class Checks:
    """Looks at the drive while it runs, at even machine hours from now.

    Attributes:
        interval: machine hours between checks; infinite: none [s]
        power: chance that a check finds a drive that fails [-]
        never_seen: share of failing drives that this check can never find [-]
        on_find: what is done then: stop at once, go on to the next day that cannot be worked, or until the drive ordered
            is there
    """

    interval: Duration = NEVER
    power: Share = 0.0
    never_seen: Share = 0.0
    on_find: OnFind = "stop"


@dataclass(frozen=True, slots=True)
class Warranty:
    """What a seller of a used drive stands for.

    Attributes:
        hours: machine hours it holds [s]
        days: time it holds, from now [s]
        chance: chance that it is honoured [-]
        pro_rata: only the part of it that was not had is paid
    """

    hours: Duration = 0.0
    days: Duration = NEVER
    chance: Share = 0.0
    pro_rata: bool = False


@dataclass(frozen=True, slots=True)
class Recovery:
    """What is done once the machine stands, decided by what is known at that moment and never by what comes later.

    Attributes:
        source: the drive that is fetched
        wait: how long it is waited for before a machine is hired: 0 at once, infinite never [s]
        quoted: the lead is asked first: a machine is hired at once where it is longer than the wait
    """

    source: Source = "used"
    wait: Duration = NEVER
    quoted: bool = False


@dataclass(frozen=True, slots=True)
class Winter:
    """What a rebuild takes by how the drive came off, and what winter's bills count today.

    Attributes:
        failing: sets of parts that a drive takes which was taken off failing [-]
        let_go: sets of parts that a drive takes which let go [-]
        today: what one of anything that is paid in winter counts today [-]
    """

    failing: Share = 1.3
    let_go: Share = 2.0
    today: Share = 1.0


@dataclass(frozen=True, slots=True)
class Years:
    """The years after, under one fixed policy: a check before each season, a planned change if it finds something.

    Attributes:
        count: how many [1]
        hours: machine hours in each [s]
        power: chance that the check before the season finds a drive that fails [-]
        looks: share of 0 to 1 for each check: draws first, then years, then the two corners [-]
        twin: what the drive on the other side has before it now
        next_lives: of drives put in later: draws first, then years, then the two corners
        whole_life: what a drive put in lasts on the mean [s]
        delayed_with: crop lost by waiting when a drive lets go and a spare is there, a crop each [m^2]
        delayed_without: the same without a spare, a crop each [m^2]
        keeps_spare: a drive that comes off is rebuilt for the shelf, where the shelf is empty
        discount: what is paid a year later counts so much less [-]
    """

    count: int
    hours: Duration
    power: Share
    looks: Share
    twin: Life
    next_lives: Life
    whole_life: Duration
    delayed_with: CropAreas
    delayed_without: CropAreas
    keeps_spare: bool = False
    discount: Share = 0.06


@dataclass(frozen=True, slots=True)
class Course:
    """One way of dealing with it. A new course is a new row of this.

    Attributes:
        name: its name
        source: drive put in before the machine works; none: the one that sits there
        ready: from now until work can begin [s]
        works: own machine, a hired one, a second one of the yard, or none
        rate: rate of the machine that works, by that of the own one [-]
        life: of what works
        now: what is used up before work begins
        checks: looks while it runs
        warranty: on a used drive
        winter: what becomes of the drive in trouble over winter: nothing, rebuilt for the shelf, or rebuilt and put back
        swaps: the drive in trouble comes off before the season goes on
        meanwhile: the machine goes on with the drive in trouble until the other one, or the parts, are there
        arrives: from now until they are there; it stands from then to `ready` [s]
    """

    name: str
    source: Literal["none", "spare", "used", "exchange", "rebuilt"] = "none"
    ready: Duration = 0.0
    works: Literal["own", "hired", "second", "none"] = "own"
    rate: Share = 1.0
    life: Life = Life()
    now: Ledger = NOTHING
    checks: Checks = Checks()
    warranty: Warranty = Warranty()
    winter: Literal["nothing", "shelf", "back"] = "nothing"
    swaps: YesNo = False
    meanwhile: bool = False
    arrives: Duration = 0.0


@dataclass(frozen=True, slots=True)
class Outcome:
    """How a course went, one a draw.

    Attributes:
        course: its name
        recovery: number of the recovery that was taken once the machine stood [1]
        now: what was used up before work began
        season: what the season used up in all, `now` and the winter rebuild in it
        finish: from now until the last crop is off; infinite where some is never [s]
        lost: days lost against the same weather without trouble, to the season's end at most [s]
        down: days the machine stood for it [s]
        failed: how often a drive let go at work [1]
        unsafe: chance that it was unsafe, by where the drive let go [-]
        fitted: what the fitted drive has before it at the season's end
        spare: spares on the shelf when the next season begins [1]
        core: parts that a rebuild of the old drive takes, by how it came off: 1 sound or wearing, more if it suffered [1]
    """

    course: str
    recovery: int
    now: Ledger
    season: Ledger
    finish: Duration
    lost: Duration
    down: Duration
    failed: Count
    unsafe: Share
    fitted: Life
    spare: Count
    core: Count
