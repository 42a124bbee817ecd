"""What would be left if any one pack were lost: always told, the worst of each leg first."""

from __future__ import annotations

from oatsack.reports.contents.first_screen import clip
from oatsack.reports.document import APART, Block, Cell, Heading, Para, Row, cell, row, table
from oatsack.reports.telling import Telling
from oatsack.values.pack import Loss

ENOUGH = 0.995
"""From here on a share reads 100 %."""


def loss_blocks(told: Telling) -> list[Block]:
    """One sentence on the worst single loss of each leg, then a table; nothing for one walker."""
    losses = told.plan.packed.losses
    if not losses:
        return []
    legs = dict.fromkeys(loss.leg for loss in losses)
    several = len(legs) > 1
    blocks: list[Block] = [Heading(text=told.say("losses.title"), level=2)]
    blocks += [
        Para(text=worst_line(told, loss, several=several), opens=opens(told, loss))
        for loss in losses if loss.worst
    ]  # fmt: skip
    heads = [told.say("losses.leg")] if several else []
    heads += [told.say("losses.pack"), ">" + told.say("losses.energy"),
              ">" + told.say("losses.cold"), told.say("losses.heat")]  # fmt: skip
    if any(loss.safe_share for loss in losses):
        heads.append(told.say("losses.safe"))
    rows = [_line(told, loss, len(heads), several=several) for loss in losses]
    return [*blocks, table(heads, rows, caption=told.say("losses.title"))]


def opens(told: Telling, loss: Loss) -> tuple[tuple[str, str], ...]:
    """What is left, and what of it can be eaten cold, with where each is opened."""
    at = f"packed/losses/{loss.leg}-{loss.walker}"
    return tuple((told.m.percent(getattr(loss, share)), f"{at}/{share}")
                 for share in ("energy_share", "flameless_share"))  # fmt: skip


def worst_line(told: Telling, loss: Loss, *, several: bool = False) -> str:
    """The worst single loss in one sentence."""
    heat = told.say("losses.warm" if loss.heat else "losses.no_heat", share=loss.flameless_share)
    who = told.name(loss.walker)
    text = told.say("losses.worst", walker=who, share=loss.energy_share, heat=heat)
    return told.say("losses.of_leg", leg=loss.leg, text=text) if several else text


def _safe(told: Telling, who: str, share: float) -> str:
    """How far safe food goes for one walker; of others' food much may be safe too."""
    name = clip(told.name(who), 20)
    if share >= ENOUGH:
        return told.say("losses.for_all", who=name)
    return told.say("losses.for", who=name, share=share)


def _line(told: Telling, loss: Loss, width: int, *, several: bool) -> Row:
    safe = ", ".join(_safe(told, who, share) for who, share in loss.safe_share.items())
    at = f"packed/losses/{loss.leg}-{loss.walker}/safe_share"
    where = APART.join(f"{at}/{who}" for who in loss.safe_share)
    cells: list[Cell | str] = [
        *([str(loss.leg)] if several else []), clip(told.name(loss.walker), 24),
        *(cell(text, value, address=at) for (text, at), value in
          zip(opens(told, loss), (loss.energy_share, loss.flameless_share), strict=True)),
        told.say("losses.yes" if loss.heat else "losses.no"), cell(safe, address=where),
    ]  # fmt: skip
    return row(*cells[:width])
