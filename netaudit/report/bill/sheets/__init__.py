"""The sheets of a bill, a file for each theme; every form that sets tables lays out these."""
