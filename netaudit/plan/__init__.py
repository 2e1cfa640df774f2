"""From a text to a Plan, with every error told, and back."""
