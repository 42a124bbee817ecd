"""The walker: what the body uses at rest, walking and in camp, and what eating less will do.

Pure: arrays and values in, arrays, values and flags out. Knows nothing of tracks, foods or menus.
Read on in `energy/` (the shelf of walking-cost models), then `need.py`, then `body.py`.
"""
