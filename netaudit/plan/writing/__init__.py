"""From a Plan to a tidy YAML text."""
