"""The labels of a bill as sheets to print."""
