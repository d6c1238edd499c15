"""Arrangements that nobody would build must still be drawn, or at least not fail."""

from __future__ import annotations

import random
from xml.etree.ElementTree import fromstring

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from manualgen.drawing.apparatus.catalogue import PIECES
from manualgen.drawing.contents import Content, Kind
from manualgen.drawing.parts import Part
from manualgen.drawing.setup import draw_setup

RELATIONS = ("on", "above", "in", "with", "joined by", "heated by", "held by")
TUBES = ("delivery tube", "lead", "salt bridge", "bung", "joint", None)


@st.composite
def arrangements(draw: st.DrawFn) -> tuple[Part, ...]:
    parts: list[Part] = []
    for index in range(draw(st.integers(1, 6))):
        relation = draw(st.sampled_from(RELATIONS)) if index else None
        contents = tuple(
            Content(kind.value, kind, draw(st.sampled_from([None, 1.0, 100.0, 5000.0])))
            for kind in draw(st.lists(st.sampled_from(Kind), max_size=2))
        )
        name = draw(st.sampled_from(sorted(PIECES)))
        parts.append(
            Part(
                name,
                name,
                draw(st.sampled_from([None, 1.0, 250.0, 1e6])),
                draw(st.booleans()),
                contents,
                relation,
                draw(st.sampled_from(TUBES)) if relation == "joined by" else None,
                draw(st.integers(0, index - 1)) if index else None,
            )
        )
    return tuple(parts)


@settings(max_examples=120, deadline=None)
@given(arrangements())
def test_any_arrangement_gives_a_drawing_that_fits_the_page(
    parts: tuple[Part, ...],
) -> None:
    root = fromstring(draw_setup(parts, "odd"))
    assert float(root.get("width", "").removesuffix("mm")) <= 148.01


@pytest.mark.parametrize("name", sorted(PIECES))
def test_every_piece_can_be_drawn_alone_and_with_everything_in_it(name: str) -> None:
    chance = random.Random(name)
    contents = tuple(Content(kind.value, kind, chance.random() * 50) for kind in Kind)
    root = fromstring(draw_setup((Part(name, name, 100.0, True, contents),), name))
    words = " ".join("".join(text.itertext()) for text in root)
    assert name in " ".join(words.split()) or name == "bung"
