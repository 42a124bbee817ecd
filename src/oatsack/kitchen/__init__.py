"""Heat, water, fuel and minutes: what the meals of a walk ask of pot, burner, spring and bottle.

`heat` is the physics of boiling water, `fuels` and `cans` what burns; `price` tells the menu what a
dose costs in a camp, `ledger` afterwards what the whole menu really takes, camp by camp, cooked in
the order of `cooking`. `sweat`, `drinking` and `counts` are about what is drunk, `keeping` about
what spoils, `nesting` about what fits in the pot, `boiltest` about the walker's own stove,
`flamefree` about eating the same bags without any.
"""
