"""The menu chooser: slots, the usual, one exact problem, its answer or why there is none."""
