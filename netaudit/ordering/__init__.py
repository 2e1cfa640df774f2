"""What to buy, cut, label, plug and tick off, as it follows from a plan and its network."""
