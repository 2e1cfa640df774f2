"""Whether everything that a plan names is there."""
