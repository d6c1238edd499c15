"""Why something cannot be made, or has to be asked: in any language."""

from __future__ import annotations

from dataclasses import dataclass

from manualgen.knowledge.labels import ENGLISH, Say


@dataclass(frozen=True, slots=True)
class Reason:
    """A clause of the tool's own words, and what is put into it."""

    label: str
    """The key of its words."""
    put_in: tuple[tuple[str, str], ...] = ()

    def told(self, say: Say) -> str:
        """The clause in the language of these words."""
        return say[self.label].format(**dict(self.put_in))

    def __str__(self) -> str:
        return self.told(ENGLISH)


class CannotMakeError(ValueError):
    """A solution that cannot be worked out; `str()` says why, as a clause."""

    def __init__(self, label: str, /, **put_in: object) -> None:
        told = tuple((name, str(value)) for name, value in put_in.items())
        self.reason = Reason(label, told)
        super().__init__(str(self.reason))
