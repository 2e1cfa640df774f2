"""Address cards: what each machine is told, and what is left alone."""
