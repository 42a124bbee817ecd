"""Many small cases in one test: all are tried, and all that fail are told at once.

pytest spends some milliseconds around every test that it counts; over thousands of cases of a few
microseconds that is most of the everyday suite. `each` takes the arguments of
``pytest.mark.parametrize`` and is used where cases need no fixture of their own.
"""

from __future__ import annotations

import functools
import inspect
import traceback
from collections.abc import Callable, Iterable, Sequence
from typing import Any

Test = Callable[..., None]
MOST_TOLD = 30


def each(
    names: str | Sequence[str], cases: Iterable[Any], ids: object = None
) -> Callable[[Test], Test]:
    """Calls a test with every case; `ids` is taken and not needed, a failure names its case."""
    wanted = [n.strip() for n in names.split(",")] if isinstance(names, str) else list(names)
    rows = [dict(zip(wanted, _values(case, len(wanted)), strict=True)) for case in cases]
    if not rows:
        raise ValueError(f"no case of {names}")

    def around(test: Test) -> Test:
        @functools.wraps(test)
        def every(*args: Any, **fixtures: Any) -> None:
            failed = [told for row in rows if (told := _failure(test, args, fixtures | row))]
            if failed:
                more = f"\n... and {len(failed) - MOST_TOLD} more" * (len(failed) > MOST_TOLD)
                head = f"{len(failed)} of {len(rows)} cases fail\n"
                raise AssertionError(head + "\n".join(failed[:MOST_TOLD]) + more)

        given = inspect.signature(test)
        left = [p for name, p in given.parameters.items() if name not in wanted]
        every.__signature__ = given.replace(parameters=left)  # type: ignore[attr-defined]
        return every

    return around


def _values(case: Any, count: int) -> Sequence[Any]:
    if marks := getattr(case, "marks", ()):
        raise ValueError(f"a case with marks of its own is a test of its own: {marks}")
    values = getattr(case, "values", None)
    if isinstance(values, tuple):  # a pytest.param
        return values
    return (case,) if count == 1 else case


def _failure(test: Test, args: Sequence[Any], values: dict[str, Any]) -> str:
    """Where and how a case fails; empty when it does not."""
    try:
        test(*args, **values)
    except Exception as error:  # noqa: BLE001 - whatever goes wrong in a case is its failure
        where = traceback.extract_tb(error.__traceback__)[-1]
        shown = ", ".join(f"{name}={value!r:.90}" for name, value in values.items())
        what = "".join(traceback.format_exception_only(error)).strip()
        return f"* {shown}\n  line {where.lineno}: {what[:1200]}"
    return ""
