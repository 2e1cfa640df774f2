"""A Report in each of its forms."""
