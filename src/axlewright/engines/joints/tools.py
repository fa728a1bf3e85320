"""Wrench, adapter, multiplier and bar: what to set and what to pull for a torque at the bolt."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from axlewright.engines.limits import above, within
from axlewright.kinds import Angle, Force, Length, Share, Torque, YesNo

USE_FROM = 0.2  # of a wrench's range: checked at 20, 60 and 100 in 100; ISO 6789 as quoted by wrench makers


def adapter_setting(torque: Torque, wrench_length: Length, adapter_length: Length, adapter_angle: Angle) -> Torque:
    """Setting of a wrench that works through an adapter (crow foot).

    Args:
        torque: torque wanted at the bolt [N m]
        wrench_length: drive centre to middle of the grip [m]
        adapter_length: drive centre to bolt centre [m]
        adapter_angle: angle of the adapter to the wrench, 0 straight on, pi folded back [rad]

    Returns:
        setting [N m]

    Source: T L/(L + E cos a); torque wrench manuals.
    Valid: pull at the middle of the grip, no pipe on the wrench; adapter shorter than the wrench.

    >>> round(float(adapter_setting(80.0, 0.40, 0.05, 0.0)), 1)
    71.1
    """
    within("torque", torque, 0.0)
    above("wrench_length", wrench_length)
    within("adapter_length", adapter_length, 0.0)
    above("wrench_length", np.asarray(wrench_length) - adapter_length, why="the wrench is longer than the adapter")
    within("adapter_angle", adapter_angle, -np.pi, np.pi)
    return torque * wrench_length / (wrench_length + adapter_length * np.cos(adapter_angle))


@dataclass(frozen=True, slots=True)
class Multiplied:
    """What a torque multiplier asks for, and what its arm bears on."""

    torque_in: Torque
    reaction_torque: Torque
    reaction_force: Force


def multiplier(torque: Torque, ratio: Share, efficiency: Share, reaction_arm: Length) -> Multiplied:
    """What to set on the wrench before a multiplier, and the force its arm bears with.

    Args:
        torque: torque wanted at the bolt [N m]
        ratio: ratio of the multiplier [-]
        efficiency: its efficiency, 0.85 to 0.95 [-]
        reaction_arm: bolt centre to where the arm bears [m]

    Returns:
        torque_in: torque to set on the wrench [N m]
        reaction_torque: torque on the arm [N m]
        reaction_force: force where the arm bears [N]

    Source: work and moment balance.
    Valid: efficiency above 0, at most 1; the arm bears on something named and sound.

    >>> round(float(multiplier(542.3, 5.0, 0.9, 0.25).reaction_force))
    1687
    """
    within("torque", torque, 0.0)
    within("ratio", ratio, 1.0)
    above("efficiency", efficiency)
    within("efficiency", efficiency, 0.0, 1.0)
    above("reaction_arm", reaction_arm)
    torque_in = torque / (ratio * efficiency)
    return Multiplied(torque_in, torque - torque_in, (torque - torque_in) / reaction_arm)


def bar_pull(torque: Torque, bar_length: Length) -> Force:
    """Pull at the end of a bar.

    Args:
        torque: torque at the bolt [N m]
        bar_length: bolt centre to the hands [m]

    Returns:
        pull [N]

    Source: lever. The same pull acts sideways on a raised machine.
    Valid: pull square to the bar; 225 N is an easy pull (CCOHS, quoted on a public page), 400 N a hard one (assumed).

    >>> round(bar_pull(542.3, 1.2))
    452
    """
    within("torque", torque, 0.0)
    above("bar_length", bar_length)
    return torque / bar_length


def bar_for_pull(torque: Torque, pull: Force) -> Length:
    """Bar that a torque wants at a given pull.

    Args:
        torque: torque at the bolt [N m]
        pull: pull of the hands [N]

    Returns:
        bolt centre to the hands [m]

    Source: lever.
    Valid: pull square to the bar; nobody stands on a bar over a raised machine.

    >>> round(bar_for_pull(542.3, 225.0), 2)
    2.41
    """
    within("torque", torque, 0.0)
    above("pull", pull)
    return torque / pull


def wrench_spans(torque: Torque, scale_least: Torque, scale_greatest: Torque) -> YesNo:
    """Whether a wrench may set a torque: it lies on its scale, and from a fifth of its range up.

    Args:
        torque: torque to set [N m]
        scale_least: least mark of the wrench [N m]
        scale_greatest: greatest mark of the wrench [N m]

    Returns:
        yes or no [-]

    Source: ISO 6789 as quoted by wrench makers, checked at 20, 60 and 100 in 100 of the range.
    Valid: greatest mark above the least.

    >>> bool(wrench_spans(542.0, 100.0, 500.0))
    False
    """
    within("torque", torque, 0.0)
    within("scale_least", scale_least, 0.0)
    above("scale_greatest", np.asarray(scale_greatest) - scale_least, why="above the least mark")
    least = np.maximum(scale_least, USE_FROM * np.asarray(scale_greatest))
    return (torque >= least) & (torque <= np.asarray(scale_greatest))


def setting_with_running_torque(torque: Torque, running_torque: Torque) -> Torque:
    """Setting for a nut that grips its thread: its running torque comes on top.

    Args:
        torque: torque that stretches the bolt [N m]
        running_torque: torque at which the nut runs before it seats [N m]

    Returns:
        setting [N m]

    Source: sum of both (common practice, no source).
    Valid: running torque read on that nut.

    >>> setting_with_running_torque(390.0, 35.0)
    425.0
    """
    within("torque", torque, 0.0)
    within("running_torque", running_torque, 0.0)
    return torque + running_torque


def torque_to_break_loose(torque: Torque, times: Share) -> Torque:
    """Torque to have at hand to break an old bolt loose.

    Args:
        torque: torque it was set to [N m]
        times: how many times that, for rust and compound [-]

    Returns:
        torque [N m]

    Source: common practice, no source: plan 1.5 to 2 times.
    Valid: times 0.5 to 5. Heat and impact are for loosening only.

    >>> torque_to_break_loose(570.0, 2.0)
    1140.0
    """
    within("torque", torque, 0.0)
    within("times", times, 0.5, 5.0)
    return torque * times


def torque_at_bolt(setting: Torque, wrench_factor: Share) -> Torque:
    """Torque that really reaches the bolt at a setting.

    Args:
        setting: what the wrench is set to [N m]
        wrench_factor: real over shown torque of this wrench and hand [-]

    Returns:
        torque at the bolt [N m]

    Source: by the meaning of the factor; ISO 6789 gives its spread.
    Valid: factor 0.3 to 3.

    >>> torque_at_bolt(400.0, 1.25)
    500.0
    """
    within("setting", setting, 0.0)
    within("wrench_factor", wrench_factor, 0.3, 3.0)
    return setting * wrench_factor


def setting_for_torque(torque: Torque, wrench_factor: Share) -> Torque:
    """Setting at which a torque really reaches the bolt.

    Args:
        torque: torque at the bolt [N m]
        wrench_factor: real over shown torque of this wrench and hand [-]

    Returns:
        setting [N m]

    Source: by the meaning of the factor; ISO 6789 gives its spread.
    Valid: factor 0.3 to 3.

    >>> setting_for_torque(500.0, 1.25)
    400.0
    """
    within("torque", torque, 0.0)
    within("wrench_factor", wrench_factor, 0.3, 3.0)
    return torque / wrench_factor
