"""Chemicals and apparatus in plain sentences."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from manualgen.knowledge import StoreEntry, store_of
from manualgen.knowledge.apparatus import (
    Piece,
    Vocabulary,
    builtin_vocabulary,
    find_apparatus,
)
from manualgen.knowledge.mentions import mentions


def chemicals_in(text: str) -> list[str]:
    return [text[m.start : m.end] for m in mentions(text).chemicals]


def apparatus_in(text: str) -> list[str]:
    return [text[m.start : m.end] for m in mentions(text).apparatus]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            "Add 25 cm3 of copper(II) sulphate solution.",
            ["copper(II) sulphate solution"],
        ),
        (
            "Add copper (II) sulfate and sodium hydroxide.",
            ["copper (II) sulfate", "sodium hydroxide"],
        ),
        ("a piece of magnesium ribbon", ["magnesium ribbon"]),
        ("Add marble chips, then vinegar.", ["marble chips", "vinegar"]),
        ("potassium hydrogenphthalate is weighed", ["potassium hydrogenphthalate"]),
        ("Fehling’s solution A, then B", ["Fehling’s solution A"]),
        (
            "2,4-dinitrophenylhydrazine solution",
            ["2,4-dinitrophenylhydrazine solution"],
        ),
        ("The sodium. Carbonate is next.", ["sodium"]),
        ("chloride ions and sodium ions", []),
        ("iron(III) ions turn it red", []),
        ("This leads to a loss of mass.", []),
        ("Lead nitrate is poisonous.", ["Lead nitrate"]),
        ("Iron the paper flat.", []),
        ("Warm it in a water bath.", []),
        ("Use a copper calorimeter.", []),
        ("the copper electrode", []),
        ("Rinse with distilled water.", ["distilled water"]),
    ],
)
def test_chemicals_are_found_by_name_and_only_where_they_are_meant(
    text: str, expected: list[str]
) -> None:
    assert chemicals_in(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Clamp the burette above two conical flasks.", ["burette", "conical flasks"]),
        ("Stopper the flask with a bung.", ["flask", "bung"]),
        ("Balance the equation.", []),
        ("Weigh it on the balance.", ["balance"]),
        ("Pipette the solution into a test tube.", ["test tube"]),
        ("Match the colour and label each tube.", ["tube"]),
        ("Filter through filter paper into a beaker.", ["filter paper", "beaker"]),
        ("Use boiling-tubes in a test-tube rack.", ["boiling-tubes", "test-tube rack"]),
        ("Fold copper foil round it.", []),
        ("Fill a test tube and stand it on the cross.", ["test tube"]),
        ("Cool it, clamp the flask and stopper it.", ["flask"]),
        ("Use a boss, clamp and stand.", ["boss", "clamp", "stand"]),
    ],
)
def test_apparatus_is_found_by_name_and_no_verb_is_taken_for_it(
    text: str, expected: list[str]
) -> None:
    assert apparatus_in(text) == expected


def test_the_flask_means_any_flask() -> None:
    (mention,) = mentions("Swirl the flask.").apparatus
    assert {"conical flask", "volumetric flask"} <= {p.name for p in mention.pieces}


@pytest.mark.parametrize(
    ("entry", "name"),
    [
        ("conical flasks", "conical flask"),
        ("small beaker", "beaker"),
        ("digital stopwatch", "stopclock"),
        ("pair of tongs", "tongs"),
        ("matches", "box of matches"),
        ("piece of white paper with a cross", "white paper"),
        ("bung with delivery tube", "delivery tube"),
        ("dropping pipettes", "teat pipette"),
        ("retort stand and clamp", "clamp stand"),
        ("Buchner funnel", "Büchner funnel"),
        ("Petri dishes", "Petri dish"),
    ],
)
def test_a_list_entry_is_found_with_its_plural_and_adjectives(
    entry: str, name: str
) -> None:
    found = find_apparatus(entry)
    assert found is not None
    assert found.name == name


def test_an_unknown_piece_is_not_found() -> None:
    assert find_apparatus("flux capacitor") is None


def test_the_vocabulary_is_large_and_its_names_are_its_own() -> None:
    pieces = builtin_vocabulary().pieces
    assert len(pieces) >= 150
    names = [n for p in pieces for n in (p.name, *p.also)]
    assert sorted(names) == sorted(set(names))


def test_a_department_can_add_a_piece() -> None:
    vocabulary = Vocabulary([Piece("potometer", also=("capillary potometer",))])
    found = find_apparatus("potometers", vocabulary)
    assert found is not None
    assert found.name == "potometer"
    (mention,) = mentions(
        "Fill the capillary potometer.", vocabulary=vocabulary
    ).apparatus
    assert mention.piece.name == "potometer"


def test_a_department_can_add_a_chemical() -> None:
    store = store_of([StoreEntry("nettle extract")])
    (mention,) = mentions("Add nettle extract.", store).chemicals
    assert mention.chemical.name == "nettle extract"


@given(st.text(alphabet="abc copper(I)sulfate-flask.,\n25", max_size=200))
def test_every_mention_lies_in_the_text_and_none_overlap(text: str) -> None:
    found = mentions(text)
    for kind in (found.chemicals, found.apparatus):
        ends = [0]
        for mention in kind:
            assert ends[-1] <= mention.start < mention.end <= len(text)
            ends.append(mention.end)
