"""`oatsack models [NAME]`: the published models, with sources, ranges and check values."""

from __future__ import annotations


def models(name: str | None = None, *, json: bool = False) -> int:
    """List the models of walking cost, walking time and resting use, or show one.

    Parameters
    ----------
    name
        A model, as pandolf-1977; its range, sources, and every check value. A wrong word names
        the ones there are.
    json
        Print the same as JSON.
    """
    from oatsack.reports.modelling import all_facts, every, named, one

    if json:
        from json import dumps

        print(dumps([named(name)] if name else all_facts(), indent=1, ensure_ascii=False))
        return 0
    from oatsack.cli.screen import put

    put(one(name) if name else every())
    return 0
