"""The verbs, in the order of the help. Each is loaded only when it is called."""

from __future__ import annotations

from typing import NamedTuple


class Verb(NamedTuple):
    """A command: its name, where its function stands, and one line of help."""

    name: str
    target: str
    help: str


VERBS: tuple[Verb, ...] = (
    Verb("demo", "oatsack.cli.verbs.demo:demo", "Copy the bundled trip out and provision it."),
    Verb("start", "oatsack.cli.verbs.start:start", "Four answers, favourites to pick, and a plan."),
    Verb("plan", "oatsack.cli.verbs.plan:plan", "Provision a trip: menu, shopping, bags, fuel."),
    Verb("check", "oatsack.cli.verbs.check:check", "Report every fault of a trip and its larders."),
    Verb("need", "oatsack.cli.verbs.need:need", "What the days use, low to high; no menu."),
    Verb("foods", "oatsack.cli.verbs.foods:foods", "Search the larder."),
    Verb("why", "oatsack.cli.verbs.why:why", "Open a number of a plan: formula, inputs, source."),
    Verb("show", "oatsack.cli.verbs.show:show", "Show a report of a plan on the terminal."),
    Verb("kitchen", "oatsack.cli.verbs.kitchen:kitchen", "What to boil, burn and carry, by camp."),
    Verb("print", "oatsack.cli.verbs.print:print_", "Write the paper that goes along (PDF)."),
    Verb("weigh", "oatsack.cli.verbs.weigh:weigh", "A bag on the scale: right, or what is wrong."),
    Verb("models", "oatsack.cli.verbs.models:models", "The published models and how they did."),
    Verb("packed", "oatsack.cli.verbs.packed:packed", "It is packed: reserve its stock."),
    Verb("swap", "oatsack.cli.verbs.swap:swap", "Put another food in place of one."),
    Verb("choices", "oatsack.cli.verbs.choices:choices", "Lighter, cheaper, better liked; more."),
    Verb("repack", "oatsack.cli.verbs.repack:repack", "From one plan's bags to another's."),
    Verb("boil-test", "oatsack.cli.verbs.boil_test:boil_test", "Your own stove, weighed."),
    Verb("serve", "oatsack.cli.verbs.serve:serve", "The pages, on this machine only."),
    Verb("backup", "oatsack.cli.verbs.backup:backup", "A whole copy of the pages' workspace."),
)
