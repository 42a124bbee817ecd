"""Solvers of menu problems: `highs` is the everyday engine, `exhaustive` the slow judge of it.

Each takes a Problem and the Work allowed and gives an Answer; neither knows of food. The menu is
handed one of them as a function and imports none.
"""
