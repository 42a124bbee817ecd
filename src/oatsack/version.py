"""The version of the program, once."""

from __future__ import annotations

VERSION = "0.1.0"
