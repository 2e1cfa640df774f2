"""A bill in each of its forms; all of them lay out the same sheets."""
