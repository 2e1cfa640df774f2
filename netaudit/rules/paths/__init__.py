"""Rules about paths: does each seat get to its storage, the way it is meant to, at the rate it wants."""
