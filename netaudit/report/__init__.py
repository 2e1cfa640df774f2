"""Reports, explanations and limits, each in each of its forms."""
