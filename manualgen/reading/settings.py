"""The settings of a manual: ``manual.yaml`` but for its parts.

A smaller manual, ``manual-NAME.yaml``, is the same department's: what it leaves
out is as in ``manual.yaml``.
"""

from __future__ import annotations

import re
from dataclasses import replace
from enum import StrEnum
from typing import TypeVar

from manualgen.model.manual import Settings
from manualgen.quantities import Quantity
from manualgen.reading.faults import Faults
from manualgen.reading.fields import Fields
from manualgen.reading.values import read_choice, read_count, read_quantity

KEYS = (
    "title",
    "institution",
    "edition",
    "language",
    "paper",
    "class",
    "conditions",
    "uncertainty",
    "burette",
    "rounding",
    "duplex",
    "house_style",
    "standing_controls",
    "parts",
    "accept",
)

_LANGUAGE = re.compile(r"[A-Za-z]{2,3}(?:-[A-Za-z0-9]{2,8}){0,3}")

E = TypeVar("E", bound=StrEnum)


def read_settings(fields: Fields, default: Settings, faults: Faults) -> Settings:
    """The settings that a file makes, on top of ``default``."""
    controls = tuple(text.text for text in fields.texts("standing_controls"))
    default = _styled(fields, _measured(fields, default, faults), faults)
    return replace(
        default,
        title=fields.string("title") or default.title,
        institution=fields.string("institution") or default.institution,
        edition=fields.string("edition") or default.edition,
        language=_language(fields, default.language, faults),
        paper=_choice(fields, "paper", default.paper, faults),
        uncertainty=_choice(fields, "uncertainty", default.uncertainty, faults),
        rounding=_choice(fields, "rounding", default.rounding, faults),
        duplex=fields.flag("duplex", default=default.duplex),
        standing_controls=controls or default.standing_controls,
    )


def _measured(fields: Fields, default: Settings, faults: Faults) -> Settings:
    """The class, the conditions and the burette."""
    of_class = fields.fields("class", ("groups", "spare"))
    conditions = fields.fields("conditions", ("temperature", "pressure"))
    groups = of_class.text("groups") if of_class else None
    return replace(
        default,
        groups=(read_count(groups, faults, "number of groups") if groups else None)
        or default.groups,
        spare=_quantity(of_class, "spare", "fraction", faults) or default.spare,
        temperature=_quantity(conditions, "temperature", "temperature", faults)
        or default.temperature,
        pressure=_quantity(conditions, "pressure", "pressure", faults)
        or default.pressure,
        burette=_quantity(fields, "burette", "volume", faults) or default.burette,
    )


def _quantity(
    fields: Fields | None, key: str, kind: str, faults: Faults
) -> Quantity | None:
    text = fields.text(key) if fields else None
    return read_quantity(text, faults, (kind,), f"a {kind}") if text else None


def _choice(fields: Fields, key: str, default: E, faults: Faults) -> E:
    text = fields.text(key)
    if text is None:
        return default
    return read_choice(text, type(default), faults, f"value of {key}") or default


def _language(fields: Fields, default: str, faults: Faults) -> str:
    text = fields.text("language")
    if text is None:
        return default
    if not _LANGUAGE.fullmatch(text.text):
        message = f"{text.text!r} is no language; write a tag such as en-GB"
        faults.syntax(text.place(), message)
        return default
    return text.text


def _styled(fields: Fields, default: Settings, faults: Faults) -> Settings:
    """The house style."""
    said = fields.fields("house_style", ("volume", "units", "sulfur", "decimal"))
    if said is None:
        return default
    house = replace(
        default.house,
        volume=_choice(said, "volume", default.house.volume, faults),
        units=_choice(said, "units", default.house.units, faults),
        decimal=_choice(said, "decimal", default.house.decimal, faults),
    )
    sulfur = _choice(said, "sulfur", default.sulfur, faults)
    return replace(default, house=house, sulfur=sulfur)
