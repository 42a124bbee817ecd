"""Oatsack provisions multi-day walks: from a route and a larder to packed bags."""

from __future__ import annotations

from oatsack.version import VERSION

__version__ = VERSION
__all__ = ["__version__"]
