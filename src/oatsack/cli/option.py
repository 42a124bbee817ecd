"""How an option is called on the command line where its name is not that of the argument.

Stands in annotations, which nobody evaluates before a parser asks: so a verb is loaded, and its
help told, without loading the parser.
"""

from __future__ import annotations

from typing import Any


def option(*names: str) -> Any:
    """The parser's word for an option with these names, as ``--out`` and ``-o``."""
    from cyclopts import Parameter

    return Parameter(name=names)
