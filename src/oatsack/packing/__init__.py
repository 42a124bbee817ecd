"""From a chosen menu to what is bought, bagged, carried, shut away at night and brought back out.

`pack.pack` is the one entry; every step of it stands in a module of its own and can be called
alone: `buy`, `bags`, `sacks` (who carries what: `share`, `loss`), `container`, `rubbish`, `legs`.
Beside the plan: `checkweigh`, `repack`, `swap`, `late`, `yardsticks`. Nothing here chooses food,
knows files or asks a clock; volumes come from the rows of the foods, or from their class.
"""
