"""What the verbs share: how wide the terminal is, whether it has colour, and progress on stderr."""

from __future__ import annotations

import os
import shutil
import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from oatsack.reports.document import Document
    from oatsack.values.menu import Menu
    from oatsack.values.plan import Plan


def coloured() -> bool:
    """Whether standard output is a terminal that wants colour."""
    return sys.stdout.isatty() and "NO_COLOR" not in os.environ


def width() -> int:
    """Columns of the terminal; 80 when piped."""
    return min(shutil.get_terminal_size((80, 24)).columns, 120) if sys.stdout.isatty() else 80


def show(plan: Plan, content: str, **options: Any) -> None:
    """Prints a report of a plan to standard output."""
    from oatsack.reports import render

    text = render(plan, content, "terminal", width=width(), colour=coloured(), **options)
    sys.stdout.write(text.decode("utf-8"))


def put(document: Document) -> None:
    """Prints a document to standard output."""
    from oatsack.reports.formats.terminal import render

    sys.stdout.write(render(document, width=width(), colour=coloured()).decode("utf-8"))


def say(text: str) -> None:
    """A line to standard error, beside the result."""
    print(text, file=sys.stderr)


def follow(menu: Menu) -> bool:
    """Shows the best menu so far on a terminal; the work goes on."""
    if sys.stderr.isatty():
        from oatsack.reports.words import say as told

        kg = menu.aim / 1000.0
        sys.stderr.write("\r" + told("cli.best", kg=kg, gap=menu.gap) + " ")
        sys.stderr.flush()
    return True


@contextmanager
def stoppable() -> Iterator[Callable[[], bool]]:
    """Says whether one may go on: the first interruption asks the work to end with the best so far,
    a second one ends it at once."""
    going = True

    def asked(*_: object) -> None:
        nonlocal going
        if not going:
            raise KeyboardInterrupt
        going = False
        from oatsack.reports.words import say as told

        say("\n" + told("cli.stopping"))

    try:
        before = signal.signal(signal.SIGINT, asked)
    except ValueError:  # not in the main thread: whoever runs it there interrupts it there
        yield lambda: True
        return
    try:
        yield lambda: going
    finally:
        signal.signal(signal.SIGINT, before)


def line(text: str) -> None:
    """Shows where long work stands, in the place of what stood there before."""
    if sys.stderr.isatty():
        sys.stderr.write(f"\r{text[: width() - 1]:<{width() - 1}}")
        sys.stderr.flush()


def followed() -> None:
    """Wipes the line of progress."""
    if sys.stderr.isatty():
        sys.stderr.write("\r" + " " * 72 + "\r")
        sys.stderr.flush()
