"""Rules about ports: do two ends fit and find a rate, and is the machine behind them fast enough."""
