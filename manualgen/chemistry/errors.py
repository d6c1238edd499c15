"""What can be wrong with a formula or an equation as it was typed.

The offsets count characters of the text that was parsed, so that whoever knows
where that text stands in a file can point at the very letters.
"""

from __future__ import annotations

from typing import Self


class ChemistryError(ValueError):
    """A text that cannot be read as chemistry.

    ``start`` and ``end`` bound the offending characters in the text parsed;
    ``suggestion`` is the whole text mended, where the meaning can be guessed.
    """

    def __init__(
        self, message: str, start: int, end: int, suggestion: str | None = None
    ) -> None:
        super().__init__(message)
        self.message = message
        self.start = start
        self.end = end
        self.suggestion = suggestion

    def within(self, text: str, start: int, end: int) -> Self:
        """The same fault seen in ``text``, of which ``start`` to ``end`` was parsed."""
        mend = self.suggestion
        whole = None if mend is None else text[:start] + mend + text[end:]
        return type(self)(self.message, self.start + start, self.end + start, whole)


class FormulaError(ChemistryError):
    """A species that is no formula: an unknown element, an open bracket, a charge read two ways."""


class EquationError(ChemistryError):
    """An equation that cannot be taken apart: no arrow, an empty side, two species unseparated."""
