"""Who explains what, tried in this order: the particular, the recomputed, the given.

To add an explainer, write it into the file of its part of the plan and name it in that list.
"""

from __future__ import annotations

from oatsack.why.explainers.base import Explainer
from oatsack.why.explainers.eating import EATING
from oatsack.why.explainers.kitchens import KITCHENS
from oatsack.why.explainers.needs import NEEDS
from oatsack.why.explainers.origins import ORIGINS
from oatsack.why.explainers.packs import PACKS
from oatsack.why.explainers.recounted import RECOUNTED
from oatsack.why.explainers.summing import SUMMING

EXPLAINERS: tuple[Explainer, ...] = (
    *NEEDS, *EATING, *KITCHENS, *PACKS, *SUMMING, *RECOUNTED, *ORIGINS,
)  # fmt: skip
