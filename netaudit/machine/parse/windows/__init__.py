"""What Windows answers, read purely: JSON of its PowerShell cmdlets, and rows of its network tables."""
