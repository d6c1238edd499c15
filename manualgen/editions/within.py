"""What stands anywhere inside a sheet or a key."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass
from functools import cache
from operator import attrgetter
from typing import TypeAlias, TypeVar

from manualgen.chemistry import Equation, Formula
from manualgen.model.place import Place
from manualgen.quantities import Quantity

T = TypeVar("T")

_WHOLE = (Place, Formula, Equation, Quantity)
"""What a sheet is made of and nobody looks into; most of the things there are."""

Opening: TypeAlias = Callable[[object], Sequence[object]]


def within(thing: object, kind: type[T]) -> Iterator[T]:
    """Everything of one type inside a sheet, a key or a part of them, in order."""
    unopened = [thing]
    while unopened:
        found = unopened.pop()
        if isinstance(found, kind):
            yield found
        opening = _opening(type(found))  # type: ignore[arg-type]  # classes hash
        if opening:
            unopened.extend(reversed(opening(found)))


@cache
def _opening(kind: type[object]) -> Opening | None:
    """What gives the parts of a thing of a type, in order; None where it has none."""
    if issubclass(kind, _WHOLE):
        return None
    if issubclass(kind, tuple):
        return lambda thing: thing if isinstance(thing, tuple) else ()
    if issubclass(kind, Mapping):
        return lambda thing: tuple(thing.values()) if isinstance(thing, Mapping) else ()
    if not is_dataclass(kind):
        return None
    names = [field.name for field in fields(kind)]
    if len(names) < 2:  # of one name, attrgetter gives no tuple
        return lambda thing: [getattr(thing, name) for name in names]
    return attrgetter(*names)
