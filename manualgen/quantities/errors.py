"""What keeps a text from being a quantity or a unit."""

from __future__ import annotations

from typing import Literal

Fault = Literal[
    "empty",
    "too-long",
    "number",
    "unknown-unit",
    "syntax",
    "range",
    "dimension",
]


class QuantityError(ValueError):
    """A text that is no quantity, with the words that are to blame.

    The place is one of characters in the text that was to be read; whoever
    knows where that text stands makes a line and a column of it.
    """

    def __init__(
        self,
        kind: Fault,
        message: str,
        start: int,
        end: int,
        suggestion: str | None = None,
    ) -> None:
        super().__init__(message)
        self.kind: Fault = kind
        self.message = message
        self.start = start
        self.end = end
        self.suggestion = suggestion

    def shifted(self, by: int) -> QuantityError:
        """The same error in a text that has so many characters before this one."""
        return QuantityError(
            self.kind, self.message, self.start + by, self.end + by, self.suggestion
        )
