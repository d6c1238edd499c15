"""One module a command: its words, and what it prints."""
