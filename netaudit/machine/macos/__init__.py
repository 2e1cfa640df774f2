"""macOS: asked through its own commands, each by its full path, within a deadline."""
