"""The menu chooser: slots, the walker's usual, one exact problem, its answer or why there is none."""
