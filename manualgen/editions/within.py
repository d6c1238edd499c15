"""What stands anywhere inside a sheet or a key."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from typing import TypeVar

T = TypeVar("T")


def within(thing: object, kind: type[T]) -> Iterator[T]:
    """Everything of one type inside a sheet, a key or a part of them, in order."""
    if isinstance(thing, kind):
        yield thing
    if isinstance(thing, tuple):
        for item in thing:
            yield from within(item, kind)
    elif isinstance(thing, Mapping):
        for item in thing.values():
            yield from within(item, kind)
    elif is_dataclass(thing):
        for field in fields(thing):
            yield from within(getattr(thing, field.name), kind)
