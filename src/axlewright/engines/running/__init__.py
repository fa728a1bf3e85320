"""Running: what loads a drive's bearings, how long they last, in wheel turns, kilometres and hours.

Lives are kept in turns of the wheel; hours follow from where they are driven. For the forecast: `hub_life` of `hub.py`
does it in one go, its `median` goes to the forecast's `leaned_on_bearings`.
"""
