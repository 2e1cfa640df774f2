"""The values every room speaks in: frozen, with a unit under every number."""
