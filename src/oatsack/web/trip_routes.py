"""The addresses of the trip page and everything live; each module is loaded when first asked."""

from __future__ import annotations

Routes = tuple[tuple[str, str, str], ...]
LATER: dict[str, Routes] = {
    "oatsack.web.trip_page": (
        ("GET", "/trip/{name}", "trip"),
        ("GET", "/trip/{name}/hours", "hours"),
        ("GET", "/trip/{name}/ribbon.json", "ribbon"),
        ("GET", "/trip/{name}/why", "why"),
    ),
    "oatsack.web.folding": (
        ("GET", "/trip/{name}/days/{part}", "part"),
    ),
    "oatsack.web.live": (
        ("GET", "/trip/{name}/work", "work"),
        ("POST", "/trip/{name}/stop", "stop"),
    ),
    "oatsack.web.changing": (("POST", "/trip/{name}/change", "change"),),
    "oatsack.web.card": (
        ("GET", "/trip/{name}/at", "card"),
        ("GET", "/trip/{name}/put", "put"),
    ),
    "oatsack.web.dialling": (
        ("GET", "/trip/{name}/dial", "dial"),
        ("GET", "/trip/{name}/dial.json", "dial_json"),
    ),
    "oatsack.web.why_not": (
        ("GET", "/trip/{name}/why-not", "why_not"),
        ("POST", "/trip/{name}/why-not", "ask"),
    ),
    "oatsack.web.choices": (
        ("GET", "/trip/{name}/choices", "choices"),
        ("POST", "/trip/{name}/choices", "work_out"),
    ),
}
