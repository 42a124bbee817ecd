"""The route: a track or typed days, cut into days, and every hour of them.

`days.days_of` is the door: trip and track in, days from waking to waking out. `flags.flags_of` says
what a person should hear about them. `profile` turns a recorded line into heights and climbs;
`pace` holds the walking-time rules. What a day costs the walker is not known here.
"""

from __future__ import annotations

__all__: list[str] = []
