"""How much of old sources lands where a careful colleague put it.

The sources and the colleague's drafts are our own: common practice, no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from manualgen.adopting import OldDocument, adopted, text_document
from manualgen.adopting.proof import proved
from manualgen.adopting.word import read_word
from tests.adopting.documents import DOCUMENTS, write_document
from tests.adopting.measure import Tally, colleague, compare, practical

SOURCES = Path(__file__).parent / "sources"
TEXTS = sorted(path.name for path in SOURCES.iterdir())
ENOUGH = 90
MOST_EXTRA = 2


def _tally(document: OldDocument, stem: str) -> Tally:
    found = [
        practical(draft.origin, proved(draft, stem)[1])
        for draft in adopted(document, stem)
    ]
    return compare(colleague(stem), found)


def _holds(tally: Tally) -> None:
    missed = [what for what in tally.astray if not what.startswith("extra ")]
    assert tally.percent >= ENOUGH, (missed, tally.unplaced)
    assert missed == []
    assert len(tally.astray) - len(missed) <= MOST_EXTRA, tally.astray


@pytest.mark.parametrize("name", TEXTS)
def test_notes_and_talk_land_where_a_colleague_put_them(name: str) -> None:
    text = (SOURCES / name).read_text(encoding="utf-8")
    _holds(_tally(text_document(name, text), Path(name).stem))


@pytest.mark.parametrize("name", sorted(DOCUMENTS))
def test_documents_land_where_a_colleague_put_them(name: str, tmp_path: Path) -> None:
    path = write_document(name, tmp_path)
    _holds(_tally(read_word(path.name, path.read_bytes()), name))


def test_there_are_four_or_more_of_each_kind() -> None:
    texts = [text_document(n, (SOURCES / n).read_text("utf-8")) for n in TEXTS]
    talks = [document for document in texts if document.is_talk]
    assert min(len(DOCUMENTS), len(texts) - len(talks), len(talks)) >= 4
    assert all(2 <= len(adopted(talk, "talk")) <= 5 for talk in talks)
