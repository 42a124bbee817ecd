"""What every test run needs: optional needs named once, and skips that CI turns into failures."""

from __future__ import annotations

import importlib.util
import os
import shutil

import pytest
from hypothesis import HealthCheck, settings

ALIKE = {"deadline": None, "derandomize": True, "suppress_health_check": [HealthCheck.too_slow]}
settings.register_profile("whole", **ALIKE)
settings.register_profile("everyday", max_examples=20, **ALIKE)
settings.load_profile(os.environ.get("OATSACK_EXAMPLES", "whole"))

REQUIRED = {word for word in os.environ.get("OATSACK_REQUIRE", "").split(",") if word}


def lacks(need: str) -> str:
    """Why a need is not met on this machine; empty when it is."""
    if need == "browser":
        if shutil.which("chromium") is None and shutil.which("chromium-browser") is None:
            return "no chromium on the path"
        return "" if importlib.util.find_spec("playwright") else "playwright is not installed"
    if need == "oracles":
        missing = [m for m in ("CoolProp", "pythermalcomfort") if not importlib.util.find_spec(m)]
        return f"not installed: {', '.join(missing)}" if missing else ""
    return ""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Skips what cannot run here, saying why; a required need is never skipped."""
    for need in ("browser", "oracles"):
        reason = lacks(need)
        if reason and need not in REQUIRED:
            for item in items:
                if item.get_closest_marker(need):
                    item.add_marker(pytest.mark.skip(reason=f"{need}: {reason}"))


@pytest.hookimpl(hookwrapper=True)
def pytest_runtest_makereport(item: pytest.Item, call: pytest.CallInfo[None]):
    """A skip of something that OATSACK_REQUIRE names is a failure."""
    outcome = yield
    report = outcome.get_result()
    if report.skipped and any(item.get_closest_marker(need) for need in REQUIRED):
        report.outcome = "failed"
        report.longrepr = f"required by OATSACK_REQUIRE, yet skipped: {report.longrepr}"


LONG_S = 2.0


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Names what is too long for the everyday suite, so that its 90 s do not leak away."""
    if os.environ.get("OATSACK_EXAMPLES") != "everyday":
        return
    parts = [one for kind in ("passed", "failed") for one in terminalreporter.getreports(kind)]
    long = sorted({(round(p.duration, 1), p.nodeid) for p in parts if p.duration > LONG_S})
    if long:
        terminalreporter.section(f"over {LONG_S:.0f} s each: mark them slow, or share their plans")
    for seconds, name in reversed(long):
        terminalreporter.line(f"{seconds:6.1f} s  {name}")
