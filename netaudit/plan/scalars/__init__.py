"""Scalars of a plan: from one text to one value, and back."""
