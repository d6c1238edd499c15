"""No sentence of a source is missing from its drafts, and each draft can be read."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from manualgen.adopting import adopted, text_document
from manualgen.adopting.proof import faults, proved
from manualgen.adopting.word import read_word
from tests.adopting.documents import DOCUMENTS, write_document

SOURCES = Path(__file__).parent / "sources"
WORDS = [
    "add",
    "stir",
    "the",
    "acid",
    "25cm3",
    "of",
    "5g",
    "beaker",
    "turns",
    "blue",
    "heat",
    "NaOH",
    "H2SO4",
    "Fe2+",
    "you",
    "will",
    "need",
    "this",
    "shows",
    "that",
    "wear",
    "goggles",
    "sink",
    "why",
    "flask",
    "and",
    "then",
    "a",
    "white",
    "precipitate",
    "forms",
    "is",
    "poured",
    "Method:",
    "Apparatus:",
    "Questions",
    "first",
    "next",
    "one",
    "practical",
    "2",
    "1.",
    "-",
    "*",
    "#",
    ">",
    "|",
    "[1]",
    "`x`",
    "_y_",
    "**z**",
    "<b>",
    "&",
    "\\",
    "---",
    "===",
    "12:30",
    "[00:10]",
    "it's",
    "e.g.",
    "1,000",
    "20",
    "degrees",
    "C",
    "10",
    "mins",
    "um",
    "er",
    "sorry",
    "well",
    "1.2 Method",
]
MARKER = r"[QA]\d|[QA][.:]|\(?\w\)|\d{1,2}[.)]|[-*•]|\d{1,2} [-–]|[1-9](?:\.\d){1,2}(?=\s[A-Z])"
"""What stands before an item of a list, which the draft numbers itself."""
LINES = st.lists(st.sampled_from(WORDS), min_size=1, max_size=12).map(" ".join)
STOPPED = st.tuples(LINES, st.sampled_from(["", ".", "?", ":", "!"])).map("".join)
TIMED = st.tuples(st.integers(0, 59), STOPPED).map(lambda t: f"00:{t[0]:02} {t[1]}")
NOTES = st.lists(st.one_of(STOPPED, st.just("")), min_size=1, max_size=14)
TALK = st.lists(TIMED, min_size=3, max_size=14)
ANYTHING = st.text(max_size=300)


def _row(text: str) -> list[str]:
    """The words of a text: letters and figures alone."""
    folded = unicodedata.normalize("NFKC", text).casefold()
    return re.findall(r"[^\W_]+", folded)


def _sentences(text: str) -> list[list[str]]:
    """Lines parted at their stops, independently of how the program does it."""
    found = []
    for line in text.splitlines():
        bare = re.sub(r"^\s*[\[(]?\d{1,2}:\d\d(?::\d\d)?[\])]?", "", line)
        bare = re.sub(rf"^\s*(?:{MARKER})\s", "", bare)
        # A cell of a table, in pipes or in columns, is a sentence of its own.
        found += [_row(part) for part in re.split(r"[.!?]\s+|\||\s{3,}", bare)]
    return [row for row in found if row]


def _missing(text: str, name: str) -> list[list[str]]:
    drafts = adopted(text_document(name, text), "source")
    written = [proved(draft, "source") for draft in drafts]
    assert all(not faults(t, "source", d) for d, t in written)
    # Both the words as they stand and without the marks that hold them.
    texts = [re.sub(r"\\(?=[^\w\s])|`|\[_|_\]", "", t) for _, t in written]
    plain = [f" {' '.join(_row(t))} " for t in (*texts, *(t for _, t in written))]
    return [row for row in _sentences(text) if not _stands(row, plain, _runs(text))]


def _runs(text: str) -> int:
    """In how many pieces a line may stand: lines of talk without stops end anywhere."""
    return 1 if re.search(r"\w[.?!](?:\s|$)", text) else 4


def _stands(row: list[str], texts: list[str], runs: int) -> bool:
    """Whether the words of a line stand in a text, whole or in so many runs."""
    for end in range(len(row), 0, -1):
        if any(f" {' '.join(row[:end])} " in text for text in texts):
            rest = row[end:]
            return not rest or (runs > 1 and _stands(rest, texts, runs - 1))
    return False


@given(NOTES.map("\n".join), st.sampled_from(["n.txt", "n.md"]))
@example("Method:\n1. 25cm3 of acid is poured and stir", "n.txt")
def test_no_sentence_of_notes_is_missing(text: str, name: str) -> None:
    if text.strip():
        assert _missing(text, name) == []


@given(TALK.map("\n".join))
@example("00:01 a\n00:02 white\n00:03 add 5g")
@example("00:00 add\n00:00 add add add and\n00:00 add")
def test_no_word_of_talk_is_missing(text: str) -> None:
    # Lines without stops end anywhere, so that a line need not be a sentence.
    drafts = adopted(text_document("n.txt", text), "source")
    said = Counter(word for row in _sentences(text) for word in row)
    kept = Counter[str]()
    for draft in drafts:
        sound, written = proved(draft, "source")
        assert not faults(written, "source", sound)
        kept.update(_row(re.sub(r"`|\[_|_\]", "", written)))
    assert not said - kept


@given(ANYTHING)
@example("B0- and A0+")
@example("0\u0345")
def test_no_word_of_any_text_is_missing(text: str) -> None:
    if not text.strip():
        return
    drafts = adopted(text_document("n.txt", text), "source")
    written = "\n".join(proved(draft, "source")[1] for draft in drafts)
    said, kept = (set(_row(re.sub(r"[^\w\s]", " ", t))) for t in (text, written))
    assert said - kept <= _markers(text)


def _markers(text: str) -> set[str]:
    """Numbers of items and times of lines, which are not words of a sentence."""
    found: set[str] = set()
    for line in re.split(r"[\n\r\x0b\x0c\x1c-\x1e\x85\u2028\u2029]", text):
        head = re.match(r"\s*[^\s]{1,10}(?:\s|$)", line)
        found |= set(_row(head.group())) if head else set()
    return found


@pytest.mark.parametrize("path", sorted(SOURCES.iterdir()), ids=lambda p: p.name)
def test_no_sentence_of_our_sources_is_missing(path: Path) -> None:
    assert _missing(path.read_text(encoding="utf-8"), path.name) == []


@pytest.mark.parametrize("name", sorted(DOCUMENTS))
def test_no_paragraph_of_a_document_is_missing(name: str, tmp_path: Path) -> None:
    path = write_document(name, tmp_path)
    drafts = adopted(read_word(path.name, path.read_bytes()), name)
    written = "\n".join(proved(draft, name)[1] for draft in drafts)
    bare_text = re.sub(r"`|\[_|_\]", "", written)
    kept = f" {' '.join(_row(bare_text))} "
    for paragraph in DOCUMENTS[name]().paragraphs:
        for sentence in re.split(r"(?<=[.?])\s|: ", paragraph.text):
            bare = re.sub(rf"\s*\[\d\]$|^(?:{MARKER})\s", "", sentence)
            if _row(bare):
                assert f" {' '.join(_row(bare))} " in kept, sentence
