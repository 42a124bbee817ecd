"""`oatsack serve [FOLDER]`: the pages, on this machine only unless a pass phrase lets others in."""

from __future__ import annotations

import os
import socket
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from oatsack.cli.screen import say
from oatsack.errors import UsageError
from oatsack.reports.words import say as told

if TYPE_CHECKING:
    from oatsack.web.lock import Opening

LOOPBACK = "127.0.0.1"


def serve(
    folder: Path = Path(), *, port: int = 0, host: str = LOOPBACK, browser: bool = True
) -> int:
    """Open the pages over a folder of trips, on this machine only.

    Parameters
    ----------
    folder
        Where the trips and the larder are kept.
    port
        A port; without one a free one is taken.
    host
        Where to listen. Beyond this machine a pass phrase is asked for, typed or from the
        environment variable OATSACK_PASS_PHRASE; what is missing is said.
    browser
        Open the browser where there is one.
    """
    from uvicorn import Config, Server

    from oatsack.desk.elsewhere import Elsewhere
    from oatsack.web.app import create

    folder.mkdir(parents=True, exist_ok=True)
    opening = None if host == LOOPBACK else opened(host)
    taken = listening(host, port)
    address = f"http://{shown(taken)}/"
    say(told("cli.serves", address=address))
    if browser:
        import webbrowser

        webbrowser.open(address)
    app = create(folder, works=Elsewhere(), opening=opening)
    server = Server(Config(app, log_level="warning", loop="asyncio", http="h11", ws="none",
                           lifespan="off", server_header=False))  # fmt: skip
    server.run(sockets=[taken])
    return 0


def opened(host: str) -> Opening | None:
    """The lock for a host beyond this machine, with what is missing said; None for this one."""
    from oatsack.reports.words import say as word
    from oatsack.web.lock import Lock, Opening, beyond, names_of, phrase_from

    if not beyond(host):
        return None
    ask = _typed if sys.stdin.isatty() else None
    lock = Lock(phrase_from(os.environ, ask))
    say(word("web.serve.open"))
    return Opening(names=names_of(host), lock=lock)


def _typed(prompt: str) -> str:
    from getpass import getpass

    return getpass(prompt)


def listening(host: str, port: int) -> socket.socket:
    """A socket that listens already: a browser may be quicker than the server. UsageError."""
    kind = socket.AF_INET6 if ":" in host else socket.AF_INET
    taken = socket.socket(kind, socket.SOCK_STREAM)
    taken.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        taken.bind((host.strip("[]"), port))
        taken.listen(64)
    except (OSError, OverflowError) as error:
        taken.close()
        why = getattr(error, "strerror", None) or str(error)
        raise UsageError(told("cli.cannot-listen", host=host, port=port, why=why)) from None
    return taken


def shown(taken: socket.socket) -> str:
    """Host and port as an address writes them; where it listens everywhere, the machine's name."""
    host, port = taken.getsockname()[:2]
    if host in ("0.0.0.0", "::"):
        host = socket.gethostname()
    return f"[{host}]:{port}" if ":" in host else f"{host}:{port}"
