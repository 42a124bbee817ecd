"""The addresses of larder, papers, text and JSON; each module is loaded when first asked."""

from __future__ import annotations

Routes = tuple[tuple[str, str, str], ...]
LATER: dict[str, Routes] = {
    "oatsack.web.shelf": (
        ("GET", "/larder", "larder"),
        ("GET", "/larder/food/{food}", "food"),
        ("POST", "/larder/food/{food}", "drop"),
        ("GET", "/larder.csv", "larder_csv"),
        ("POST", "/larder/import", "larder_import"),
    ),
    "oatsack.web.label_form": (
        ("GET", "/larder/label", "label"),
        ("POST", "/larder/label", "put_label"),
        ("GET", "/larder/label.json", "judge"),
    ),
    "oatsack.web.stock": (
        ("GET", "/larder/stock", "stock"),
        ("POST", "/larder/stock", "put_stock"),
        ("POST", "/trip/{name}/draw", "draw"),
        ("GET", "/trip/{name}/likes", "likes"),
        ("POST", "/trip/{name}/likes", "put_likes"),
    ),
    "oatsack.web.text_page": (
        ("GET", "/trip/{name}/text", "text"),
        ("POST", "/trip/{name}/text", "put_text"),
    ),
    "oatsack.web.interface": (
        ("GET", "/openapi.json", "openapi"),
        ("GET", "/trips.json", "trips"),
        ("GET", "/larder.json", "larder"),
        ("GET", "/plan.schema.json", "schema"),
        ("GET", "/trip/{name}/why.json", "why"),
    ),
    "oatsack.web.handing": (
        ("GET", "/trip/{name}/buy", "buy"),
        ("GET", "/trip/{name}/pack", "pack"),
        ("POST", "/trip/{name}/weigh", "weigh"),
        ("POST", "/trip/{name}/packed", "packed"),
        ("GET", "/trip/{name}/kitchen", "kitchen"),
        ("GET", "/trip/{name}/paper", "paper"),
        ("GET", "/trip/{name}/paper/{content}.{form}", "hand_out"),
        ("GET", "/trip/{name}/see/{content}", "see"),
    ),
}
