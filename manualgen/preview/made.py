"""Pages that are made when somebody asks for them, and once only."""

from __future__ import annotations

import threading
from collections.abc import Callable, Iterator, Mapping
from typing import TypeAlias

Make: TypeAlias = Callable[[], bytes]


class MadeWhenAsked(Mapping[str, bytes]):
    """Files by address; each is made the first time that it is asked for.

    A save changes one page, and an author looks at one, so the others wait.
    Several threads may ask at once.  What a maker raises, the asker meets.
    """

    def __init__(self, makers: Mapping[str, Make]) -> None:
        self._makers = makers
        self._made: dict[str, bytes] = {}
        self._making = threading.Lock()

    def __getitem__(self, name: str) -> bytes:
        with self._making:
            if name not in self._made:
                self._made[name] = self._makers[name]()
            return self._made[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._makers)

    def __len__(self) -> int:
        return len(self._makers)

    def __contains__(self, name: object) -> bool:
        return name in self._makers
