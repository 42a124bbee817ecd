"""The cheapest one-to-one matching of rows and columns, exact, by shortest augmenting paths.

Plain numbers only; `repack` asks it which new bag is made from which old one.
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from oatsack.values.problem import Floats


def cheapest(cost: Floats) -> npt.NDArray[np.int64]:
    """For each row of a square cost matrix its column, so that the sum of costs is least.

    Grows the matching row by row along a shortest path in reduced costs (duals kept feasible), so
    that each step stays optimal; O(n^3), the inner step vectorised.

    Source: Kuhn1955; the form by augmenting paths is from memory.
    """
    n = len(cost)
    u, v = np.zeros(n + 1), np.zeros(n + 1)
    row_of = np.full(n + 1, -1, np.int64)  # column -> row; column n is the way in
    for row in range(n):
        row_of[n] = row
        _augment(cost, u, v, row_of)
    out = np.empty(n, np.int64)
    out[row_of[:n]] = np.arange(n)
    return out


def _augment(cost: Floats, u: Floats, v: Floats, row_of: npt.NDArray[np.int64]) -> None:
    n = len(cost)
    dist = np.full(n, np.inf)
    came = np.full(n, n, np.int64)
    seen = np.zeros(n + 1, bool)
    column = n
    while row_of[column] != -1:
        seen[column] = True
        row = int(row_of[column])
        reduced = cost[row] - u[row] - v[:n]
        open_ = ~seen[:n]
        better = open_ & (reduced < dist)
        dist[better] = reduced[better]
        came[better] = column
        nearest = int(np.argmin(np.where(open_, dist, np.inf)))
        step = float(dist[nearest])
        u[row_of[seen]] += step
        v[seen] -= step
        dist[open_] -= step
        column = nearest
    while column != n:
        row_of[column] = row_of[came[column]]
        column = int(came[column])
    row_of[n] = -1
