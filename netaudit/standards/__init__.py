"""Published figures as tables, each row with its source."""
