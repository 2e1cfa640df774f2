"""Sheets that stand beside a plan: prices, and what was ticked off; CSV as any spreadsheet writes it."""
