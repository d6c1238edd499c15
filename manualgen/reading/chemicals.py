"""The lines of ``chemicals:``.

    - sodium hydroxide, 0.100 mol/dm3, 130 cm3
    - {name: iron(II) sulfate, strength: 0.10 mol/dm3, in: "sulfuric acid, 1.0 mol/dm3"}
    - {shown: white solid, sets: {groups 1-4: sodium carbonate}, amount: 2 g}

The parts after the name are told apart by what they measure.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace

from manualgen.model.lab import (
    Amount,
    IdentitySet,
    ListedChemical,
    Sharing,
    Strength,
    StrengthWord,
)
from manualgen.model.nearest import nearest
from manualgen.quantities import Quantity
from manualgen.quantities.kinds import AMOUNTS, PURE, STRENGTHS, is_strength, kind_of
from manualgen.quantities.mend import typed
from manualgen.reading.entries import bounded, sharing_of
from manualgen.reading.faults import Faults
from manualgen.reading.fields import Fields
from manualgen.reading.stretch import Stretch
from manualgen.reading.values import read_quantity
from manualgen.reading.yaml_tree import Mapping, Node, Scalar

KEYS = (
    "name",
    "strength",
    "amount",
    "words",
    "spare",
    "per",
    "in",
    "shown",
    "made",
    "sets",
)
WORDS = (
    "excess",
    "for disposal",
    "for spills",
    "weighed out",
    "per class",
    "per station",
    *StrengthWord,
)
_STRENGTH_WORDS = frozenset(StrengthWord)
_EXPECTED = "a strength, or an amount in mass, volume, length or count,"
_NUMBER_FIRST = re.compile(r"[-−]?\.?\d")
_GROUPS = re.compile(r"(?:groups? )?(\d{1,3})(?:\s*(?:-|–|to)\s*(\d{1,3}))?")


def read_chemicals(
    nodes: tuple[Node, ...], faults: Faults
) -> tuple[ListedChemical, ...]:
    """The entries that could be read; the others are noted."""
    entries = bounded(nodes, faults)
    return tuple(entry for node in entries if (entry := _chemical(node, faults)))


def _chemical(node: Node, faults: Faults) -> ListedChemical | None:
    match node:
        case Scalar(stretch=text):
            return _from_line(text, faults) if text.text else None
        case Mapping(pairs=pairs) if any(key.text in KEYS for key, _ in pairs):
            return _from_mapping(Fields(node, KEYS, faults, "of a chemical"), faults)
        case Mapping(pairs=((key, Scalar() as value), *_)):
            message = f"a colon and a blank make {key.text} a key; quote the whole line"
            faults.syntax(node.place, message, f'"{key.text}: {value.text}"')
            return None
        case _:
            message = "a chemical is a line such as: sodium chloride, 5 g"
            faults.syntax(node.place, message)
            return None


def _from_line(text: Stretch, faults: Faults) -> ListedChemical:
    name, *parts = text.split(", ")
    chemical = ListedChemical(name.text, text.place(), name.place())
    return _with_parts(chemical, parts, faults)


def _with_parts(
    chemical: ListedChemical, parts: Iterable[Stretch], faults: Faults
) -> ListedChemical:
    for part in parts:
        chemical = _with_part(chemical, part, faults)
    return chemical


def _with_part(
    chemical: ListedChemical, part: Stretch, faults: Faults
) -> ListedChemical:
    """What the list says with one more part: a quantity, or words."""
    part, excess = _without_excess(part)
    if excess:
        chemical = replace(chemical, excess=True)
    text = part.text
    if text in _STRENGTH_WORDS:
        return replace(chemical, strength=Strength(StrengthWord(text), part.place()))
    if _NUMBER_FIRST.match(text) and not sharing_of(text):
        return _with_quantity(chemical, part, faults)
    return _with_words(chemical, part, faults)


def _without_excess(part: Stretch) -> tuple[Stretch, bool]:
    """A part without the word ``excess``, and whether it was there."""
    text = part.text
    if text == "excess" or text.startswith("excess "):
        return part.cut(len("excess"), len(text)).strip(), True
    if text.endswith(" excess"):
        return part.cut(0, len(text) - len("excess")).strip(), True
    return part, False


def _with_quantity(
    chemical: ListedChemical, part: Stretch, faults: Faults
) -> ListedChemical:
    quantity = read_quantity(part, faults, STRENGTHS | AMOUNTS, _EXPECTED)
    if quantity is None:
        return chemical
    if is_strength(quantity.unit):
        if chemical.strength:
            faults.syntax(part.place(), "a second strength stands here")
        return replace(chemical, strength=Strength(quantity, part.place()))
    if chemical.amount:
        _note_second_amount(chemical.amount, quantity, part, faults)
    return replace(chemical, amount=Amount(quantity, part.place()))


def _note_second_amount(
    first: Amount, second: Quantity, part: Stretch, faults: Faults
) -> None:
    """``0.100, 50 cm3``: what has no unit is most often a strength."""
    is_count = first.value.value % 1 == 0 or kind_of(first.value.unit) != PURE
    if not is_count and kind_of(second.unit) != PURE:
        message = (
            f"{typed(first.value)} has no unit, so that nobody can tell what it is"
        )
        faults.syntax(
            first.place, message, f"{typed(first.value)} mol/dm3, or its unit"
        )
    else:
        faults.syntax(part.place(), "a second amount stands here")


def _with_words(
    chemical: ListedChemical, part: Stretch, faults: Faults
) -> ListedChemical:
    """Words that mean something; others are kept for whoever sets the room out."""
    match part.text:
        case "":
            return chemical
        case "for disposal":
            return replace(chemical, for_disposal=True)
        case "for spills":
            return replace(chemical, for_spills=True)
        case "weighed out":
            return replace(chemical, weighed_out=True)
        case text if shared := sharing_of(text):
            return replace(chemical, shared=shared)
        case text if near := nearest(text, WORDS):
            faults.unknown(part.place(), "word of a chemical's line", text, (near,))
            return chemical
        case text:
            return replace(chemical, words=(*chemical.words, text))


def _from_mapping(fields: Fields, faults: Faults) -> ListedChemical | None:
    chemical = _named(fields, faults)
    if chemical is None:
        return None
    amount, parts = _head(fields.text("amount"))
    bare, excess = _without_excess(amount) if amount else (None, False)
    chemical = _with_parts(chemical, (*parts, *fields.texts("words")), faults)
    solvent, solvent_strength = _solvent(fields.text("in"), faults)
    shown, spare = fields.string("shown"), fields.text("spare")
    return replace(
        chemical,
        strength=_strength(fields.text("strength"), faults) or chemical.strength,
        amount=_amount(bare, faults) or chemical.amount,
        excess=excess or chemical.excess,
        shared=_shared(fields.text("per"), faults) or chemical.shared,
        spare=_spare(spare, faults) if spare else None,
        solvent=solvent,
        solvent_strength=solvent_strength,
        shown=shown,
        made=_strength(fields.text("made"), faults),
        sets=tuple(_sets(fields.node("sets"), faults)),
    )


def _named(fields: Fields, faults: Faults) -> ListedChemical | None:
    """The chemical by its name, or by what students are shown."""
    name, parts = _head(fields.text("name"))
    name = name or fields.text("shown")
    if name is None:
        if fields.lacks("name"):
            mend = "name: sodium chloride"
            faults.syntax(fields.place, "a chemical has a name", mend)
        return None
    chemical = ListedChemical(name.text, fields.place, name.place())
    return _with_parts(chemical, parts, faults)


def _head(text: Stretch | None) -> tuple[Stretch | None, list[Stretch]]:
    """A value, and the parts that commas join to it: ``50 cm3, for disposal``."""
    if text is None:
        return None, []
    head, *parts = text.split(", ")
    return head, parts


def _spare(text: Stretch, faults: Faults) -> Quantity | None:
    return read_quantity(text, faults, ("fraction",), "a percentage")


def _strength(text: Stretch | None, faults: Faults) -> Strength | None:
    if text is None:
        return None
    if text.text in _STRENGTH_WORDS:
        return Strength(StrengthWord(text.text), text.place())
    quantity = read_quantity(text, faults, STRENGTHS, "a strength")
    return Strength(quantity, text.place()) if quantity else None


def _amount(text: Stretch | None, faults: Faults) -> Amount | None:
    if text is None or not text.text:
        return None
    quantity = read_quantity(text, faults, AMOUNTS, "an amount")
    return Amount(quantity, text.place()) if quantity else None


def _solvent(
    text: Stretch | None, faults: Faults
) -> tuple[str | None, Strength | None]:
    """``sulfuric acid, 1.0 mol/dm3``: what something is dissolved in."""
    if text is None:
        return None, None
    name, *rest = text.split(", ")
    for further in rest[1:]:
        faults.syntax(further.place(), "a solvent has a name and a strength, no more")
    return name.text, _strength(rest[0] if rest else None, faults)


def _shared(text: Stretch | None, faults: Faults) -> Sharing | None:
    if text is None:
        return None
    shared = sharing_of(text.text) or sharing_of(f"per {text.text}")
    if shared is None:
        message = f"{text.text!r} is nobody that shares"
        faults.syntax(text.place(), message, "class, station or 2 per class")
    return shared


def _sets(node: Node | None, faults: Faults) -> Iterator[IdentitySet]:
    """``groups 1-4: sodium carbonate``, each group once."""
    if node is None:
        return
    if not isinstance(node, Mapping):
        message = "sets says what each group is given"
        faults.syntax(node.place, message, "{groups 1-4: sodium carbonate}")
        return
    given: set[int] = set()
    for key, value in node.pairs:
        found = _GROUPS.fullmatch(key.text)
        if not found or not isinstance(value, Scalar) or not value.text:
            message = f"{key.text!r} is no range of groups with a chemical"
            faults.syntax(key.place, message, "groups 1-4: sodium carbonate")
            continue
        first, last = int(found[1]), int(found[2] or found[1])
        groups = set(range(first, last + 1))
        if not groups or groups & given:
            faults.syntax(
                key.place, f"{key.text}: each group has one range from low to high"
            )
        given |= groups
        yield _identity(first, last, value.stretch, faults)


def _identity(first: int, last: int, text: Stretch, faults: Faults) -> IdentitySet:
    name, *rest = text.split(", ")
    strength = _strength(rest[0], faults) if rest else None
    return IdentitySet(first, last, name.text, name.place(), strength)
