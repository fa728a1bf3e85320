"""Running: what loads a drive's bearings, how long they last, in wheel turns, kilometres and hours.

Lives are kept in turns of the wheel; hours follow from where they are driven. For the forecast: `basic_rating_life` of
each bearing, times `life_modification`, `pair_life` of both, `survival_life` at a half, `running_time`; the forecast's
`life_with_bearings` leans a class on it.
"""
