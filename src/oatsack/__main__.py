"""`python -m oatsack` is the command line."""

from __future__ import annotations

from oatsack.cli.main import main

if __name__ == "__main__":
    main()
