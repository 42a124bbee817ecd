"""The workspace database of the pages: revisions with a head, nothing lost."""
