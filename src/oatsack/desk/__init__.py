"""The desk: what both doors call. Open a trip, plan it, edit it, ask why, hand out the papers.

`opening` reads the user's files, all faults at once; `planning` provisions; `export` writes plans
and papers without ever losing what stood there; `whys` opens a number; `starting` makes a trip from
four answers. No arithmetic on food, no rendering of screens.
"""
