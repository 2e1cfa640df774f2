"""Pure readers of what each system's commands and tables say: text in, values out, nothing asked."""
