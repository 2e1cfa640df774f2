"""The day of the move: labels, the port map, the order of plugs, tests and what is ticked off."""
