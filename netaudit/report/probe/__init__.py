"""The answer of a probe in each of its forms."""
