"""An old document to drafts."""

from __future__ import annotations

from dataclasses import replace

from manualgen.adopting.draft import Draft
from manualgen.adopting.naming import with_formulas
from manualgen.adopting.parting import practicals, with_titles
from manualgen.adopting.piece import AdoptError, OldDocument
from manualgen.adopting.plain import Fetch, no_picture, read_plain
from manualgen.adopting.sorting import sorted_draft
from manualgen.adopting.statement import statements
from manualgen.adopting.talk import is_talk, read_talk

LONGEST = 400_000
"""Characters of a document of text."""


def adopted(document: OldDocument, stem: str) -> tuple[Draft, ...]:
    """The drafts of a document, one a practical, in order."""
    row = tuple(
        replace(statement, number=n)
        for n, statement in enumerate(
            statements(document.pieces, is_talk=document.is_talk)
        )
    )
    if not document.is_talk:
        row = with_titles(row)
    found = practicals(row, stem, is_talk=document.is_talk)
    drafts = (sorted_draft(practical, document.name) for practical in found)
    return tuple(with_formulas(draft) for draft in drafts)


def text_document(name: str, text: str, fetch: Fetch = no_picture) -> OldDocument:
    """Typed notes, or talk, as a document; raises `AdoptError` for what is none."""
    if len(text) > LONGEST:
        raise AdoptError(f"is longer than {LONGEST} characters; part it")
    lines = text.replace("\r\n", "\n").replace("\r", "\n")
    if not lines.strip():
        raise AdoptError("has no words in it")
    if is_talk(lines):
        return OldDocument(name, read_talk(lines), is_talk=True)
    is_markdown = name.lower().endswith(".md")
    return OldDocument(name, read_plain(lines, markdown=is_markdown, fetch=fetch))
