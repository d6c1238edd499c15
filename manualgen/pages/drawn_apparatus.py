"""The apparatus of a drawing, for the room that draws it and for who cannot see it."""

from __future__ import annotations

from typing import Final

from manualgen.drawing.apparatus.catalogue import joint_named, kind_named, piece_named
from manualgen.drawing.contents import Content, Kind
from manualgen.drawing.parts import Part
from manualgen.editions.fence_panels import DrawnContent, DrawnPiece
from manualgen.knowledge.labels import ENGLISH, Say
from manualgen.model.lab import StrengthWord
from manualgen.quantities import Dimension, HouseStyle, Quantity, printed

MASS: Final = Dimension(mass=1)
VOLUME: Final = Dimension(length=3)
ASIDE: Final = ("held by", "heated by")
"""What is said of a piece before the next one is related to it."""


def parts_of(
    pieces: tuple[DrawnPiece, ...], house: HouseStyle, say: Say = ENGLISH
) -> tuple[Part, ...]:
    """The pieces as the drawing room takes them.

    What stood to a piece that cannot be drawn stands to the one before it.
    """
    kept = [index for index, piece in enumerate(pieces) if piece_named(piece.name)]
    return tuple(_part(pieces[i], kept, house, say) for i in kept)


def _part(piece: DrawnPiece, kept: list[int], house: HouseStyle, say: Say) -> Part:
    earlier = [
        n for n, i in enumerate(kept) if piece.base is not None and i <= piece.base
    ]
    base = earlier[-1] if earlier else None
    return Part(
        name=piece_named(piece.name) or "",
        label=piece.name,
        capacity_cm3=_cm3(piece.capacity),
        stoppered=piece.stoppered,
        contents=tuple(_content(c, house, say) for c in piece.contents),
        relation=piece.relation if base is not None else None,
        by=joint_named(piece.by) if piece.by else None,
        base=base,
        tube=piece.by or "",
    )


def _content(content: DrawnContent, house: HouseStyle, say: Say) -> Content:
    words = content.name
    if content.amount:
        words = f"{printed(content.amount, house)} {words}"
    match content.strength:
        case Quantity() as strength:
            words = f"{words}, {printed(strength, house)}"
        case StrengthWord() as word:
            words = say["with_strength"].format(strength=say[word.value], name=words)
        case None:
            pass
    return Content(words, _kind(content), _cm3(content.amount))


def _kind(content: DrawnContent) -> Kind:
    if content.strength:
        return Kind.LIQUID
    if content.amount and content.amount.dimension == MASS:
        return Kind.SOLID
    if _cm3(content.amount) is not None:
        return Kind.LIQUID
    return kind_named(content.name)


def _cm3(quantity: Quantity | None) -> float | None:
    if quantity is None or quantity.dimension != VOLUME:
        return None
    return float(quantity.si_value) * 1e6


def told(pieces: tuple[DrawnPiece, ...], house: HouseStyle, say: Say) -> str:
    """The drawing in words: a sentence for each line of pieces, from the first on.

    Where the author goes back to an earlier piece a new sentence begins with it.
    """
    sentences: list[list[str]] = [[]]
    current: int | None = None
    for index, piece in enumerate(pieces):
        if piece.base is not None and piece.base != current:
            sentences.append([say["told_from"].format(piece=pieces[piece.base].name)])
        sentences[-1].append(_clause(piece, house, say))
        current = piece.base if piece.relation in ASIDE else index
    words = ". ".join(map(", ".join, sentences))
    return say["told_drawing"].format(words=f"{words}.")


def _clause(piece: DrawnPiece, house: HouseStyle, say: Say) -> str:
    """A piece, how it stands to the one before, what is in it, and its bung."""
    words = [_relation(piece, say), piece.name]
    if piece.capacity:
        words.append(f"({printed(piece.capacity, house)})")
    if piece.contents:
        *others, last = (_content(c, house, say).label for c in piece.contents)
        contents = say["told_and"].join(filter(None, ("; ".join(others), last)))
        words.append(say["told_containing"].format(contents=contents))
    if piece_named(piece.name) == "condenser":
        words.append(say["told_cooled"])
    told_of = " ".join(filter(None, words))
    return f"{told_of}, {say['told_stoppered']}" if piece.stoppered else told_of


def _relation(piece: DrawnPiece, say: Say) -> str:
    if piece.relation is None:
        return ""
    if piece.relation == "joined by":
        by, to = say["told_joined_by_to"], say["told_joined_to"]
        return by.format(tube=piece.by) if piece.by else to
    return say["told_" + piece.relation.replace(" ", "_")]
