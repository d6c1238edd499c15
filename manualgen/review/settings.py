"""What changed in manual.yaml's settings, in the words of that file."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields
from enum import Enum
from operator import itemgetter
from typing import TypeAlias

from manualgen.model.manual import Settings
from manualgen.model.place import Place
from manualgen.quantities import HouseStyle, Quantity
from manualgen.review.align import in_order, partners
from manualgen.review.changes import Change
from manualgen.review.setting_places import SettingPlaces
from manualgen.review.writing import of_both, quantity_text, said

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


Set: TypeAlias = tuple[Settings, SettingPlaces]
"""What a manual's files set, and where they do."""


def setting_changes(old: Set, new: Set) -> Iterator[Change]:
    """Every setting that is not as it was."""
    before, after = dict(_settings(old[0])), dict(_settings(new[0]))
    for name, now in after.items():
        if before[name] != now:
            called = PLACES.get(name, name)
            yield Change(
                "setting",
                called,
                before[name] or None,
                now or None,
                new[1].of.get(called) or old[1].of.get(called),
                _consequence(name),
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


def _controls(old: Set, new: Set) -> Iterator[Change]:
    before, after = map(_placed_controls, (old, new))
    found = partners(before, after, itemgetter(0))
    for was, now in in_order(before, after, found):
        here = now or was
        texts = of_both(itemgetter(0), was, now)
        if here and texts[0] != texts[1]:
            yield Change("standing control", "in every hazard box", *texts, here[1])


def _placed_controls(each: Set) -> Sequence[tuple[str, Place | None]]:
    settings, places = each
    return [(t, places.control(n)) for n, t in enumerate(settings.standing_controls)]
