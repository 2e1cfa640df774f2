"""The command line: words in, one call, a report out, an exit code."""
