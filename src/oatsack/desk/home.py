"""Where a plan came from: the folder of its trip file and stock, and the foods it may draw on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from oatsack.desk.opening import open_trip, stock_folder
from oatsack.errors import UsageError
from oatsack.files.larder import bundled
from oatsack.reports.words import say
from oatsack.values.food import Food
from oatsack.values.plan import Plan


@dataclass(frozen=True, slots=True)
class Home:
    """A plan file and its trip."""

    plan: Plan
    path: Path

    @property
    def trip_file(self) -> Path | None:
        """The trip file, beside the plan or one folder up."""
        names = {file for file, _ in self.plan.trip.origins.values()}
        near = self.path.absolute().parents[:2]
        found = [folder / name for folder in near for name in sorted(names)]
        return next((path for path in found if path.is_file()), None)

    @property
    def folder(self) -> Path:
        """The folder that holds the stock. UsageError where no trip file stands near the plan."""
        trip = self.trip_file
        if trip is None:
            raise UsageError(say("desk.no-trip-file", path=self.path))
        return stock_folder(trip.parent, self.plan.trip.stock)

    def foods(self) -> Mapping[str, Food]:
        """Foods by id: the trip's own larders, or the bundled one where there is no trip file."""
        trip = self.trip_file
        larder = open_trip(trip).foods if trip else bundled()
        return {food.id: food for food in larder} | dict(self.plan.foods)
