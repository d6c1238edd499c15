"""A drawing of apparatus in words, for who cannot see it."""

from __future__ import annotations

import re

import pytest

from manualgen.knowledge.labels import labels
from manualgen.pages.drawn_apparatus import told
from manualgen.quantities import HouseStyle
from tests.drawing.setups import pieces_from, texts


def words(lines: str, language: str = "en") -> str:
    sentence = told(pieces_from(lines), HouseStyle(), labels(language))
    return re.sub(r"\s", " ", sentence)


def test_pieces_are_told_in_their_order_with_what_is_in_them() -> None:
    assert words(texts()["titration"]) == (
        "Drawing of apparatus: burette (50 cm³) containing sodium hydroxide, 0.100 mol dm⁻³, "
        "held by clamp stand, above conical flask (250 cm³) containing "
        "25.0 cm³ vinegar and phenolphthalein solution, on white tile."
    )


def test_a_branch_begins_a_sentence_that_names_its_piece() -> None:
    assert words(
        "round-bottomed flask [ethanol]\n"
        "heated by burner\n"
        "joined to still head\n"
        "joined by bung to thermometer\n"
        "from still head: joined to condenser"
    ) == (
        "Drawing of apparatus: round-bottomed flask containing ethanol, heated by burner, "
        "joined to still head, joined by bung to thermometer. From still head, "
        "joined to condenser (water goes in at its lower end and leaves at its "
        "upper end)."
    )


def test_a_closed_flask_is_told_as_closed() -> None:
    told_of = words("conical flask [zinc; hydrochloric acid], stoppered")
    assert "zinc and hydrochloric acid, closed by a bung" in told_of


def test_a_drawing_is_told_in_the_language_of_the_manual() -> None:
    assert words("thermomètre\nin bécher [eau; glace]", "fr") == (
        "Schéma du montage : thermomètre, dans bécher contenant eau et glace."
    )


@pytest.mark.parametrize("title", texts())
@pytest.mark.parametrize("language", ["en", "fr"])
def test_every_piece_and_content_of_every_arrangement_is_told(
    title: str, language: str
) -> None:
    pieces = pieces_from(texts()[title])
    sentence = told(pieces, HouseStyle(), labels(language))
    assert sentence.endswith(".")
    for piece in pieces:
        assert piece.name in sentence
        assert all(content.name in sentence for content in piece.contents)
