"""Bytes to values and back: trip, larder, stock, track and plan files."""
