"""A bill as a workbook."""
