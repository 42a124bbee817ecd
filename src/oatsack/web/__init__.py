"""The pages on one's own machine: parse, call the desk, render; no arithmetic."""
