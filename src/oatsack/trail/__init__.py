"""The tally and the review after a walk belong here; nothing is built yet."""
