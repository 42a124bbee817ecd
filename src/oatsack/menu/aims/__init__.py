"""To be described by whoever builds this folder."""
