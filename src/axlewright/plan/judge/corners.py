"""Verdicts and standing of a corner of the yard, from its records."""

from __future__ import annotations

from datetime import date

from axlewright.plan.facts import job_open, seen_at
from axlewright.plan.judge.road import Verdicts, judge_corner
from axlewright.plan.judge.standing import Standing, standing
from axlewright.yard import Corner, Yard


def judge_at(yard: Yard, corner: Corner, today: date) -> Verdicts:
    """FIELD and ROAD of the drive at a corner."""
    return judge_corner(seen_at(yard, corner, today), job_open=job_open(yard, corner))


def standing_at(yard: Yard, corner: Corner, today: date) -> Standing:
    """How a corner stands: *not looked at (n days)*, or looked at and the least word."""
    return standing(seen_at(yard, corner, today))
