"""`oatsack serve [FOLDER]`: the pages, on this machine only."""

from __future__ import annotations

import socket
from pathlib import Path

from oatsack.cli.screen import say


def serve(folder: Path = Path(), *, port: int = 0, browser: bool = True) -> int:
    """Open the pages over a folder of trips, on this machine only.

    Parameters
    ----------
    folder
        Where the trips and the larder are kept.
    port
        A port; without one a free one is taken.
    browser
        Open the browser where there is one.
    """
    from uvicorn import Config, Server

    from oatsack.desk.elsewhere import Elsewhere
    from oatsack.web.app import create

    folder.mkdir(parents=True, exist_ok=True)
    taken = socket.socket()
    taken.bind(("127.0.0.1", port))
    taken.listen(64)  # before the address is told: a browser may be quicker than the server
    address = f"http://127.0.0.1:{taken.getsockname()[1]}/"
    say(f"Oatsack is at {address} (Ctrl-C ends it)")
    if browser:
        import webbrowser

        webbrowser.open(address)
    app = create(folder, works=Elsewhere())
    server = Server(Config(app, log_level="warning", loop="asyncio", http="h11", ws="none",
                           lifespan="off"))  # fmt: skip
    server.run(sockets=[taken])
    return 0
