"""The only rooms that ask an operating system: one question, one answer, always within a deadline."""
