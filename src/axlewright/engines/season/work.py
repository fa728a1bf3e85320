"""Rates of work, the road between fields, and what waiting costs a crop (E1)."""

from __future__ import annotations

import numpy as np

from axlewright.engines.limits import OutOfRange, above, within
from axlewright.kinds import Area, AreaPrice, Duration, FieldRate, Length, MassRate, Money, Rate, Share, Speed, Yield

HANDLING = 0.005  # share of the grain lost in handling besides the water: half a per cent, 0.06 to 1.7 read (National Corn Handbook)


def field_capacity(width: Length, speed: Speed, efficiency: Share) -> FieldRate:
    """Area worked in an hour of the field, turning and unloading in it.

    Road, daily service and waiting for dew are not in it: they shorten the day.

    Args:
        width: working width [m]
        speed: speed at work [m/s]
        efficiency: field efficiency [-]

    Returns:
        area in a time [m^2/s]

    Source: ASABE EP496.3, C = w v e.
    Valid: efficiency above 0, at most 1 (70 per cent is 0.70); no speed, no work.
    Try: width="9.15 m" speed="5.5 km/h" efficiency=0.7

    >>> round(float(field_capacity(9.15, 5.5 / 3.6, 0.7)) * 0.36, 3)
    3.523
    """
    above("width", width)
    within("speed", speed, 0.0, 20.0, "no machine works faster")
    above("efficiency", efficiency)
    within("efficiency", efficiency, 0.0, 1.0, "a share: 70 per cent is 0.70")
    return width * speed * efficiency


def throughput(capacity: FieldRate, crop: Yield) -> MassRate:
    """Crop that goes through the machine in a time.

    Args:
        capacity: area worked in a time [m^2/s]
        crop: crop on the area [kg/m^2]

    Returns:
        mass in a time [kg/s]

    Source: ASABE EP496.3, material capacity.
    Valid: always.
    Try: capacity="3.52 ha/h" crop="9 t/ha"

    >>> round(float(throughput(3.52275 / 0.36, 0.9)) * 3.6, 3)
    31.705
    """
    within("capacity", capacity, 0.0)
    within("crop", crop, 0.0)
    return capacity * crop


def speed_in_crop(greatest: Speed, most: MassRate, width: Length, crop: Yield, efficiency: Share) -> Speed:
    """Speed at work, where heavy crop slows the machine down.

    Args:
        greatest: speed in a light crop [m/s]
        most: what the machine takes in, in its best steady hour [kg/s]
        width: working width [m]
        crop: crop on the area [kg/m^2]
        efficiency: field efficiency [-]

    Returns:
        speed [m/s]

    Source: the lesser of speed and throughput over width, crop and efficiency (ASABE EP496.3 turned round).
    Valid: a crop stands.
    Try: greatest="5.5 km/h" most="20 t/h" width="6 m" crop="9 t/ha" efficiency=0.7

    >>> round(float(speed_in_crop(5.5 / 3.6, 20 / 3.6, 6.0, 0.9, 0.7)) * 3.6, 2)
    5.29
    """
    within("greatest", greatest, 0.0, 20.0, "no machine works faster")
    above("most", most)
    above("width", width)
    above("crop", crop)
    above("efficiency", efficiency)
    within("efficiency", efficiency, 0.0, 1.0, "a share: 70 per cent is 0.70")
    return np.minimum(greatest, np.asarray(most) / (np.asarray(width) * crop * efficiency))


def road_time(moves: Share, distance: Length, speed: Speed, header: Duration) -> Duration:
    """Time that moves between fields take.

    Args:
        moves: how many moves [-]
        distance: of one move [m]
        speed: on the road [m/s]
        header: taking the header off and putting it on [s]

    Returns:
        time [s]

    Source: distance over speed, and the header each time.
    Valid: always; whether it may go on the road is another question.
    Try: moves=3 distance="12 km" speed="25 km/h" header="30 min"

    >>> round(float(road_time(3, 12_000.0, 25 / 3.6, 1800.0)) / 3600, 2)
    2.94
    """
    within("moves", moves, 0.0)
    within("distance", distance, 0.0)
    above("speed", speed)
    within("header", header, 0.0)
    return moves * (distance / np.asarray(speed, float) + header)


def capacity_needed(area: Area, days: Share, hours: Duration) -> FieldRate:
    """Area in a time that a machine must work to be through in the days there are.

    Args:
        area: what must be worked [m^2]
        days: workable days there are [-]
        hours: field time in one of them [s]

    Returns:
        area in a time [m^2/s]

    Source: Iowa State University Extension, Ag Decision Maker A3-25.
    Valid: days counted by what happens in four years of five, not in every second one.
    Try: area="647 ha" days=8.3 hours="14 h"

    >>> round(float(capacity_needed(6_474_970.0, 8.3, 14 * 3600.0)) * 0.36, 2)
    5.57
    """
    within("area", area, 0.0)
    above("days", days)
    above("hours", hours)
    return area / (np.asarray(days, float) * hours)


def share_lost_by_waiting(
    late: Duration, loss: Rate, grace: Duration = 0.0, doubling: Duration = np.inf, most: Share = 0.6
) -> Share:
    """Share of a crop's worth that is lost by having waited.

    Nothing within the grace; then each day takes more than the day before.

    Args:
        late: how long it has waited past its best date [s]
        loss: share lost for each day, at first [1/s]
        grace: how long it may wait without loss [s]
        doubling: time in which the loss of a day grows by as much as it began with; infinite: never [s]
        most: the greatest share that waiting can cost [-]

    Returns:
        share [-]

    Source: integral of K(t) = K (1 + (t - g)/tau); K from ASABE D497, growth and limit assumed (docs/engines/season.md).
    Valid: calendar days, not workable ones; storms and sprouting stand apart.
    Try: late="20 d" loss="0.003 /d" grace="5 d" doubling="30 d"

    >>> round(float(share_lost_by_waiting(20 * 86400.0, 0.003 / 86400.0, 5 * 86400.0, 30 * 86400.0)), 5)
    0.05625
    """
    within("late", late)
    within("loss", loss, 0.0)
    within("grace", grace, 0.0)
    times = np.asarray(doubling, float)
    if not (times > 0).all():
        raise OutOfRange("doubling", float(np.min(times)), 0.0, np.inf, why="more than 0")
    within("most", most, 0.0, 1.0)
    past = np.maximum(np.asarray(late, float) - grace, 0.0)
    return np.asarray(np.minimum(loss * past * (1 + past / (2 * times)), most))[()]


def loss_by_delay(loss: Rate, delay: Duration, standing: Area, worth: AreaPrice) -> Money:
    """What a stop costs in crop: everything that still stands waits for it.

    Args:
        loss: share of the crop lost for each calendar day [1/s]
        delay: how long the work stands [s]
        standing: what is still to be worked [m^2]
        worth: what the crop is worth [money/m^2]

    Returns:
        loss [money]

    Source: K Y V A d, ASABE D497 and EP496.3.
    Valid: a few days; longer waiting takes more each day.
    Try: loss="0.006 /d" delay="6 d" standing="120 ha" worth="1344 /ha"

    >>> round(float(loss_by_delay(0.006 / 86400.0, 6 * 86400.0, 1_200_000.0, 0.1344)), 1)
    5806.1
    """
    within("loss", loss, 0.0)
    within("delay", delay, 0.0)
    within("standing", standing, 0.0)
    within("worth", worth, 0.0)
    return loss * delay * standing * worth


def loss_between(before: Share, after: Share, between: Duration) -> Rate:
    """Share lost for each day between two dates, from what crops taken off then had lost.

    Args:
        before: share lost by the earlier date [-]
        after: share lost by the later date [-]
        between: time between them [s]

    Returns:
        share for each day [1/s]

    Source: the difference of two losses over the time between them.
    Valid: the same crop and measure of loss; an average over the time between.
    Try: before="5 %" after="8.4 %" between="30.5 d"

    >>> round(float(loss_between(0.05, 0.084, 30.5 * 86400.0)) * 86400 * 100, 4)
    0.1115
    """
    within("before", before, 0.0, 1.0)
    within("after", after, 0.0, 1.0)
    above("between", between)
    return (np.asarray(after, float) - before) / between


def area_delay_loss(
    loss: Rate, area: Area, worth: AreaPrice, capacity: FieldRate, working: Share, starts: Share = 2.0
) -> Money:
    """Loss of a whole harvest because it takes its time, by the short rule: a check on the day by day sum.

    Args:
        loss: share of the crop lost for each calendar day [1/s]
        area: what is to be worked [m^2]
        worth: what the crop is worth [money/m^2]
        capacity: area worked in a time at work [m^2/s]
        working: share of all time that is worked: workable days times hours of them over 24 [-]
        starts: 2 where work begins or ends at the best date, 4 where it is balanced about it [-]

    Returns:
        loss of the whole area [money]

    Source: ASABE EP496.3, timeliness cost K A^2 Y V/(Z G C pwd), from memory; derived in docs/engines/season.md.
    Valid: one crop, even work, loss that does not grow.
    Try: loss="0.005 /d" area="200 ha" worth="1320 /ha" capacity="3 ha/h" working=0.2333

    >>> day, ha, hour = 86400.0, 10000.0, 3600.0
    >>> round(float(area_delay_loss(0.005 / day, 200 * ha, 1320 / ha, 3 * ha / hour, 0.7 * 8 / 24)), 1)
    7857.1
    """
    within("loss", loss, 0.0)
    within("area", area, 0.0)
    within("worth", worth, 0.0)
    above("capacity", capacity)
    above("working", working)
    within("working", working, 0.0, 1.0)
    within("starts", starts, 2.0, 4.0)
    takes = area / (np.asarray(capacity, float) * working)
    return loss * area * worth * takes / starts


def drying_shrink(wet: Share, dry: Share, handling: Share = 0.0) -> Share:
    """Share of the mass that drying takes.

    Args:
        wet: moisture before, of the wet mass [-]
        dry: moisture after [-]
        handling: share lost in handling besides, 0.5 % where nobody weighed it [-]

    Returns:
        share of the wet mass [-]

    Source: National Corn Handbook, shrink (Mi - Mf)/(100 - Mf) and handling.
    Valid: grain that is dried, not wetted.
    Try: wet="25.5 %" dry="15.5 %" handling="0.5 %"

    >>> round(float(drying_shrink(0.255, 0.155, 0.005)), 4)
    0.1233
    """
    within("wet", wet, 0.0, 1.0)
    within("dry", dry, 0.0, 0.999)
    within("handling", handling, 0.0, 1.0)
    if (np.asarray(wet, float) < dry).any():
        raise OutOfRange("wet", float(np.min(wet)), float(np.max(dry)), 1.0, why="no drier than it is dried to")
    return np.asarray((np.asarray(wet, float) - dry) / (1 - np.asarray(dry, float)) + handling)[()]
