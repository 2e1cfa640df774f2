"""Windows: its network tables by direct calls, and PowerShell for what only that tells."""
