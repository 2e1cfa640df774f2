"""A bill as plain values and JSON."""
