"""What changed in manual.yaml's settings, in the words of that file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields
from enum import Enum

from manualgen.model.manual import Settings
from manualgen.quantities import HouseStyle, Quantity
from manualgen.review.align import in_order, partners
from manualgen.review.changes import Change
from manualgen.review.writing import quantity_text, said

PLACES: Mapping[str, str] = {
    "groups": "class, groups",
    "spare": "class, spare",
    "temperature": "conditions, temperature",
    "pressure": "conditions, pressure",
    "sulfur": "house style, sulfur",
}
"""Where a setting stands in manual.yaml, if not under its own name."""

TOLD_ELSEWHERE = ("standing_controls", "labels")
FOR_THE_TECHNICIAN = ("groups", "spare")
NO_PAGE = ("to",)
"""Of the house style: a word of the language, not a setting."""


def setting_changes(old: Settings, new: Settings) -> Iterator[Change]:
    """Every setting that is not as it was."""
    before, after = dict(_settings(old)), dict(_settings(new))
    for name, now in after.items():
        if before[name] != now:
            yield Change(
                "setting",
                PLACES.get(name, name),
                before[name] or None,
                now or None,
                consequence=_consequence(name),
                teachers=name in FOR_THE_TECHNICIAN,
            )
    yield from _controls(old, new)


def _settings(settings: Settings) -> Iterator[tuple[str, str]]:
    for field in fields(settings):
        value = getattr(settings, field.name)
        if isinstance(value, HouseStyle):
            for part in fields(value):
                if part.name not in NO_PAGE:
                    said_so = _said(getattr(value, part.name))
                    yield f"house style, {part.name}", said_so
        elif field.name not in TOLD_ELSEWHERE:
            yield field.name, _said(value)


def _said(value: object) -> str:
    match value:
        case Quantity():
            return said(quantity_text(value) or "")
        case Enum():
            return str(value.value)
        case bool():
            return "yes" if value else "no"
        case _:
            return str(value)


def _consequence(name: str) -> str | None:
    if name in FOR_THE_TECHNICIAN:
        return "the technician prepares other quantities for every experiment"
    return None


def _controls(old: Settings, new: Settings) -> Iterator[Change]:
    before, after = old.standing_controls, new.standing_controls
    found = partners(before, after, str)
    for was, now in in_order(before, after, found):
        if was != now:
            yield Change("standing control", "in every hazard box", was, now)
