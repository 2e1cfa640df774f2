"""netaudit judges the network of a small post-production room from a plan."""
