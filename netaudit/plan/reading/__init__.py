"""From bytes to a raw tree whose values know their place."""
