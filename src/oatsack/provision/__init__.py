"""From a trip and a larder to a provisioned plan. `provision` reads like a table of contents.

`flow` is the whole job; `loads` says what is on each back, `needs` what that costs, `asking` puts
the question to the menu chooser, `sums` adds up what it answered, `finish` makes the plan of it.
"""

from __future__ import annotations

from oatsack.provision.draft import Setting
from oatsack.provision.flow import provision

__all__ = ["Setting", "provision"]
