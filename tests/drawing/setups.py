"""Ordinary arrangements of `arrangements.txt`, read as an author writes them."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

from manualgen.drawing.parts import Part
from manualgen.editions.fence_panels import DrawnContent, DrawnPiece
from manualgen.model.fences import Setup, SetupPiece
from manualgen.pages.drawn_apparatus import parts_of
from manualgen.quantities import HouseStyle
from manualgen.reading import read_manual
from tests.reading.shelf import Shelf

FILE = Path(__file__).with_name("arrangements.txt")


def texts() -> dict[str, str]:
    """Each arrangement's lines by its title."""
    blocks = re.split(r"\n\s*\n", FILE.read_text(encoding="utf-8"))
    named = (block.strip().partition("\n") for block in blocks[1:])
    return {title.lstrip("# "): lines for title, _, lines in named}


@cache
def parts(title: str) -> tuple[Part, ...]:
    """The pieces of one arrangement, as they are drawn."""
    return parts_from(texts()[title])


def parts_from(lines: str) -> tuple[Part, ...]:
    """The pieces of a setup fence's lines, as they are drawn."""
    return parts_of(pieces_from(lines), HouseStyle())


def pieces_from(lines: str) -> tuple[DrawnPiece, ...]:
    """The pieces of a setup fence's lines, which must be read without fault."""
    text = (
        f"---\ntitle: T\n---\n\n## Theory\n\n```setup\n{lines}\n```\n\n"
        "## Method\n\n1. Look.\n"
    )
    manual = "title: M\nparts:\n  - title: A\n    experiments: [x]\n"
    read, *_ = read_manual(Shelf({"manual.yaml": manual, "x.md": text}))
    (experiment,) = read.experiments
    assert [noted.fault.message for noted in experiment.noted] == []
    (setup,) = (b for b in experiment.blocks() if isinstance(b, Setup))
    return tuple(map(drawn, setup.pieces))


def drawn(piece: SetupPiece) -> DrawnPiece:
    """A piece as it stands on a sheet."""
    return DrawnPiece(
        piece.name,
        piece.capacity,
        piece.stoppered,
        tuple(DrawnContent(c.name, c.amount, c.strength) for c in piece.contents),
        piece.relation.value if piece.relation else None,
        piece.by,
        piece.base,
    )
