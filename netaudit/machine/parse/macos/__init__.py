"""What the commands of macOS say: one file per command, text in, values out."""
