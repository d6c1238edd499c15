"""The tool's own words: whole in each language, and the department's before them."""

from __future__ import annotations

import string

import pytest
import yaml

from manualgen.knowledge.label import hazard_statements
from manualgen.knowledge.labels import label_fault, labels, languages
from manualgen.knowledge.precautions import precautionary_statements


def places(words: str) -> set[str]:
    """What is filled in, after Python's own reading of braces."""
    return {name for _, name, _, _ in string.Formatter().parse(words) if name}


@pytest.mark.parametrize("language", languages())
def test_every_language_has_every_label_with_the_same_places(language: str) -> None:
    english, other = labels("en"), labels(language)
    assert set(other) == set(english)
    wrong = [k for k in english if places(other[k]) != places(english[k])]
    assert wrong == []


def test_french_is_whole_and_english_no_part_of_it() -> None:
    from importlib.resources import files

    text = (files("manualgen.data") / "labels.yaml").read_text(encoding="utf-8")
    tables = yaml.load(text, yaml.CBaseLoader)
    assert set(tables["fr"]) == set(tables["en"])


@pytest.mark.parametrize("kind", [hazard_statements, precautionary_statements])
def test_french_statements_are_those_of_the_english_codes(kind) -> None:  # type: ignore[no-untyped-def]
    english, french = kind("en"), kind("fr")
    assert set(french) == set(english)
    assert [code for code in english if french[code] == english[code]] == []


def test_the_signal_words_are_the_regulations() -> None:
    # CLP, Article 2(4): mention d'avertissement "Danger" or "Attention".
    assert labels("fr-FR")["Danger"] == "Danger"
    assert labels("fr-FR")["Warning"] == "Attention"
    # CLP Annex III, French version, as stored lists of it have it.
    assert hazard_statements("fr")["H302"] == "Nocif en cas d’ingestion."


def test_a_statement_without_a_translation_is_told_with_its_code() -> None:
    assert hazard_statements("cy")["H302"] == "H302: Harmful if swallowed."
    assert hazard_statements("en")["H302"] == "Harmful if swallowed."


def test_a_departments_word_goes_before_the_tools_in_its_language_alone() -> None:
    own = (("en", "step", "Stage"), ("cy", "step", "Cam"))
    assert labels("en-GB", own)["step"] == "Stage"
    assert labels("fr", own)["step"] == "Étape"
    assert labels("cy", own)["step"] == "Cam"
    assert labels("cy", own)["question"] == "Question"


@pytest.mark.parametrize(
    "words",
    [
        "Mean",
        "Mean of {row}",
        "Mean of {rows",
        "Mean of {rows:>999999999}",
        "Mean of {rows!r}",
        "Mean of {rows.__class__}",
        "Mean of {}",
    ],
)
def test_words_that_could_not_be_filled_in_are_never_printed(words: str) -> None:
    assert label_fault("mean_of", words)
    assert labels("en", (("en", "mean_of", words),))["mean_of"] == "Mean of {rows}"
