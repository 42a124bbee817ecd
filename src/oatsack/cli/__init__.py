"""The command line: parse, call the desk, render. No arithmetic; one file per verb in `verbs/`."""
