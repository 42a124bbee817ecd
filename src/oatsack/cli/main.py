"""Builds the command line from the list of verbs, and turns our errors into exit codes.

Exit codes: 0 done, 1 the trip cannot be provisioned as asked, 2 wrong use or unreadable input.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING

from oatsack import __version__
from oatsack.cli.verbs import VERBS, Verb
from oatsack.errors import NoPlan, OatsackError

if TYPE_CHECKING:
    from cyclopts import App

HELP = """Provision a multi-day walk: what to eat at every meal, what to buy, bag and carry, which
fuel, how much water. Estimates for healthy adults who plan their own trip; local rules and licensed
professionals come first."""


def overview() -> str:
    """What there is, on one screen: told from the list of verbs, before any parser is loaded."""
    width = max(len(verb.name) for verb in VERBS)
    verbs = "\n".join(f"  {verb.name:<{width}}  {verb.help}" for verb in VERBS)
    return (
        f"Usage: oatsack COMMAND\n\n{HELP}\n\nCommands:\n{verbs}\n\n"
        "oatsack COMMAND --help tells more; -q and -v make the log quieter or louder;\n"
        "--version and --install-completion stand alone."
    )


AT_ONCE: Mapping[tuple[str, ...], Callable[[], str]] = {
    (): overview, ("--help",): overview, ("-h",): overview, ("--version",): lambda: __version__,
}  # fmt: skip
"""What is answered before anything heavy is loaded."""


def build() -> App:
    """The application with every verb, none of them loaded."""
    from cyclopts import App

    app = App(
        name="oatsack", help=HELP, version=__version__, help_format="plaintext",
        version_flags=["--version"], help_flags=["--help", "-h"],
    )  # fmt: skip
    for verb in VERBS:
        app.command(verb.target, name=verb.name, help=verb.help)
    app.register_install_completion_command(help="Install completion for this shell.")
    return app


STEPS = {"-q": -1, "-qq": -2, "--quiet": -1, "-v": 1, "-vv": 2, "--verbose": 1}
"""Words that make the log quieter or louder, and by how much."""


def loudness(arguments: Sequence[str]) -> tuple[list[str], int]:
    """Takes -q and -v (any verb, repeatable) out of the arguments; the number of -v less -q."""
    kept = [word for word in arguments if word not in STEPS]
    return kept, sum(STEPS.get(word, 0) for word in arguments)


def start_log(loud: int) -> None:
    """Sends the log to standard error, when someone asked for more or less of it."""
    if loud:
        import logging  # costs a tenth of a command's start; most commands never log

        levels = {-2: logging.CRITICAL, -1: logging.ERROR, 1: logging.INFO, 2: logging.DEBUG}
        level = levels[max(-2, min(2, loud))]
        logging.basicConfig(stream=sys.stderr, level=level, format="%(levelname)s %(message)s")


def run(arguments: Sequence[str]) -> int:
    """Runs one command and returns its exit code; a user's mistake never shows a traceback."""
    words, loud = loudness(arguments)
    start_log(loud)
    if tuple(words) in AT_ONCE:
        print(AT_ONCE[tuple(words)]())
        return 0
    try:
        result = called(words)
    except OatsackError as error:
        return refused(error, as_data="--json" in words)
    except KeyboardInterrupt:
        print("stopped", file=sys.stderr)
        return 130
    return result if isinstance(result, int) else 0


def refused(error: OatsackError, *, as_data: bool) -> int:
    """Says why there is no answer, on standard error; who asked for JSON gets it as JSON too."""
    text = said(error) if isinstance(error, NoPlan) else str(error)
    print(text, file=sys.stderr)
    if as_data:
        from oatsack.cli import slips

        print(slips.as_data(error, text))
    return error.exit_code


def plainly(verb: Verb, words: Sequence[str]) -> int | None:
    """The answer of a verb to words that need no parser, its help among them; None: ask one."""
    from oatsack.cli import plain

    if list(words) in (["--help"], ["-h"]):
        print(plain.help_page(verb))
        return 0
    function = plain.function_of(verb)
    given = plain.read(words, plain.arguments_of(function))
    return None if given is None else int(function(*given[0], **given[1]) or 0)


def called(words: Sequence[str]) -> object:
    """The answer of the verb that was named; 2 for words that no verb takes."""
    for verb in VERBS:
        if words and words[0] == verb.name:
            plain = plainly(verb, words[1:])
            if plain is not None:
                return plain
    from cyclopts.exceptions import CycloptsError

    try:
        return build()(
            list(words), exit_on_error=False, print_error=False, result_action="return_value"
        )
    except CycloptsError as error:
        from oatsack.cli.slips import slip

        print(slip(error, words), file=sys.stderr)
        return 2


def said(error: NoPlan) -> str:
    """What clashes and what would help, in words."""
    from oatsack.reports.words import Voice

    voice = Voice(walkers=error.walkers, foods=error.foods)
    ways = [f for f in error.flags if f.key.startswith("way-out")]
    rest = [f for f in error.flags if f not in ways]
    lines = (f"  {voice.flag(flag)}" for flag in (*rest, *ways))
    return "\n".join([voice.say("no-plan.head"), *lines])


def main() -> None:
    """The console script."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8")
    try:
        code = run(sys.argv[1:])
        sys.stdout.flush()
    except BrokenPipeError:  # the reader has seen enough
        sys.stderr.close()
        code = 0
    sys.exit(code)
