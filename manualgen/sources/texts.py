"""A content folder that is nowhere but in memory."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from manualgen.sources.source import TEXT_LIMIT, SourceError, check_path, too_large


@dataclass(frozen=True, slots=True)
class Texts:
    """The content folder whose files are these texts, by path."""

    texts: Mapping[str, str]
    name: str = "content"

    def files(self) -> tuple[str, ...]:
        """Every path, sorted."""
        return tuple(sorted(self.texts))

    def read(self, path: str, limit: int = TEXT_LIMIT) -> bytes:
        """The bytes of a text; raises `SourceError` where there is none."""
        check_path(path)
        if path not in self.texts:
            raise SourceError("is not there", missing=True)
        content = self.texts[path].encode()
        if len(content) > limit:
            raise too_large(len(content), limit)
        return content

    def exists(self, path: str) -> bool:
        """Whether there is such a text."""
        return path in self.texts
