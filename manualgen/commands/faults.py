"""Why a command could not be carried out, as one sentence and an exit status."""

from __future__ import annotations

INVALID = 1
"""The content has errors, or what was asked about is invalid or impossible."""
WRONG_USAGE = 2
"""Wrong words, or nothing could be read."""
TOOL_FAILED = 3
"""A tool is missing or failed."""


class CommandError(Exception):
    """The command cannot go on; `str()` is the sentence for the user."""

    def __init__(self, sentence: str, exit_status: int) -> None:
        super().__init__(sentence)
        self.exit_status = exit_status
