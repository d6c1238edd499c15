"""Apparatus that the Method uses and the list lacks, and the other way round.

A word such as *flask* is satisfied by any listed flask; a clamp by a clamp
stand; and a piece counts as used where the steps do what it is for.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import Final

from manualgen.checks.agreeing import not_on_list, with_article
from manualgen.knowledge import ApparatusMention, Piece, Vocabulary
from manualgen.knowledge.apparatus import Operation, Pieces, operations
from manualgen.knowledge.stems import says, stem_pattern
from manualgen.model.lab import ListedApparatus
from manualgen.model.place import Place
from manualgen.working.naming import NamedInPassage, is_negated
from manualgen.working.worked import WorkedExperiment

_SHORTEST_STEM: Final = 3
_TOLD_APART: Final = frozenset(
    {"flask", "pipette", "syringe", "cylinder", "funnel", "condenser", "thermometer"}
    | {"cup", "clock"}
)
"""Words for several pieces of which one at least must be listed; a *tube* or a
*dish* may be too many other things.
"""

_MAKES = re.compile(
    r"\b(?:mak(?:e|es|ing)|made|form(?:s|ing)?|fold(?:ed)?|roll(?:ed)?|bend|bent|shape|"
    r"serv(?:es?|ing)|acts?|used?) (?:it |them |this |the \w+ )?(?:into |as )?an? $|"
    r"\bas an? $|\b(?:this|it|that|which) (?:is|will be|becomes) (?:now )?(?:your|the|an?|our) $",
    re.I,
)
_IF_NEED_BE = re.compile(
    r"[^.;,]{0,12}\bif (?:there (?:is|are) (?:no|none)|you (?:have|lack) (?:no|none|one)|"
    r"(?:one is|they are|it is) (?:available|to hand)|none is|available|needed|necessary)\b",
    re.I,
)
"""*By measuring cylinder if there is no such pipette* asks for neither."""

_MEASURED = re.compile(
    r"\bhow (?:long|far|wide|thick|tall|high|deep|big|strong|heavy) "
    r"(?:the |your |each |a )?$",
    re.I,
)
"""*How long the thread is* tells of what was made."""


def unlisted_pieces(work: WorkedExperiment) -> Iterator[tuple[Place, str, str]]:
    """Place, message and name of each piece that the Method uses and the list lacks."""
    available = _available(work) | _made_here(work)
    for place, words, pieces in _named(work):
        if any(p.personal or p.name in available for p in pieces):
            continue
        single = words.casefold().removesuffix("s")
        is_short = any(single in p.short for p in pieces)
        if is_short and single not in _TOLD_APART:
            continue
        available |= {p.name for p in pieces}
        message = not_on_list(words, "apparatus")
        yield place, message, pieces[0].name
    yield from _operations(work, available)


def unused_pieces(work: WorkedExperiment) -> Iterator[ListedApparatus]:
    """The listed pieces that the Method neither names nor implies.

    What a piece in use needs is in use as well: the stand of a burette.
    """
    mentioned = _mentioned(work.materials.passages)
    used = {p.name for _, mention in mentioned for p in mention.pieces}
    used |= {p.name for _, _, pieces in _drawn(work) for p in pieces}
    text = "\n".join(p.text for p in work.materials.passages).casefold()
    units = _units(work)
    left = []
    for listed in work.experiment.apparatus:
        pieces = pieces_of(listed.name, work.laboratory.vocabulary)
        if _is_used(listed, pieces, used, text, units):
            text += f"\n{listed.name.casefold()}"
        else:
            left.append((listed, pieces))
    for listed, pieces in left:
        if not _is_used(listed, pieces, used, text, units):
            yield listed


def _units(work: WorkedExperiment) -> set[str]:
    """The units of what the Method measures and of what a group measures out."""
    said = {
        span.quantity.unit.text
        for passage in work.materials.passages
        for _, _, span in passage.passage.prose.quantities()
    }
    return said | {
        chemical.amount.value.unit.text
        for chemical in work.experiment.chemicals
        if chemical.amount and not chemical.weighed_out
    }


@lru_cache(maxsize=2048)
def pieces_of(name: str, vocabulary: Vocabulary) -> tuple[Piece, ...]:
    """Every piece that an entry of the list names: *bung with delivery tube* is two."""
    main = vocabulary.find(name)
    others = [p for phrase in vocabulary.phrases.find(name) for p in phrase.value[:1]]
    return tuple(dict.fromkeys([*([main] if main else []), *others]))


def _operations(
    work: WorkedExperiment, available: set[str]
) -> Iterator[tuple[Place, str, str]]:
    """What a step does with a piece that it need not name: *pipette*, *weigh*."""
    for operation in operations():
        if not operation.sure or available & set(operation.pieces):
            continue
        if told := _done(work, operation):
            yield told


def implied_pieces(work: WorkedExperiment) -> Iterator[tuple[Place, str, str]]:
    """What an operation takes as a rule and the list lacks, as `unlisted_pieces` has it.

    A piece that another brings along is not listed by that.
    """
    listed = _listed(work)
    for operation in operations():
        is_asked = not operation.where or listed & set(operation.where)
        if operation.sure or not is_asked or listed & set(operation.pieces):
            continue
        if told := _done(work, operation, "as a rule "):
            yield told


def _done(
    work: WorkedExperiment, operation: Operation, how: str = ""
) -> tuple[Place, str, str] | None:
    """The first step that does something, and what it takes."""
    for passage in work.materials.steps:
        match = stem_pattern(operation.words).search(passage.text)
        if match and not is_negated(passage.text, match.start()):
            place = passage.passage.prose.place(match.start(), match.end())
            piece = operation.pieces[0]
            taken = f"takes {how}{with_article(piece)}"
            return place, f"“{match[0]}” {taken}; the list has none", piece
    return None


def _named(work: WorkedExperiment) -> Iterator[tuple[Place, str, Pieces]]:
    """What the steps name, with its place and words; drawings come last."""
    for passage, mention in _mentioned(work.materials.steps):
        if _MEASURED.search(passage.text, max(0, mention.start - 24), mention.start):
            continue
        words = " ".join(passage.text[mention.start : mention.end].split())
        place = passage.passage.prose.place(mention.start, mention.end)
        yield place, words, mention.pieces
    yield from _drawn(work)


def _mentioned(
    passages: Iterable[NamedInPassage],
) -> Iterator[tuple[NamedInPassage, ApparatusMention]]:
    """What some passages name and do not do without."""
    for passage in passages:
        for mention in passage.apparatus:
            if is_negated(passage.text, mention.start):
                continue
            if not _IF_NEED_BE.match(passage.text, mention.end):
                yield passage, mention


def _drawn(work: WorkedExperiment) -> Iterator[tuple[Place, str, Pieces]]:
    """What the Method's drawings show."""
    for drawing in work.materials.drawings:
        for piece in drawing.pieces:
            for name in (piece.name, piece.by or ""):
                if meant := work.laboratory.vocabulary.meant_by(name):
                    yield piece.place, name, meant


def _available(work: WorkedExperiment) -> set[str]:
    """The pieces on either list, and what comes with them."""
    listed = _listed(work)
    vocabulary = work.laboratory.vocabulary
    pieces = vocabulary.pieces
    return listed | {p.name for p in pieces if not listed.isdisjoint(p.comes_with)}


def _listed(work: WorkedExperiment) -> set[str]:
    """The pieces that either list names."""
    names = [listed.name for listed in work.experiment.apparatus]
    names += [listed.name for listed in work.experiment.chemicals]
    vocabulary = work.laboratory.vocabulary
    listed = {p.name for name in names for p in pieces_of(name, vocabulary)}
    return listed | {
        p.name
        for name in names
        for phrase in vocabulary.phrases.find(name)
        for p in phrase.value
        if len(phrase.value) == 1
    }


def _made_here(work: WorkedExperiment) -> set[str]:
    """What a step makes out of other things: *to make a salt bridge*."""
    return {
        piece.name
        for passage in work.materials.steps
        for mention in passage.apparatus
        if _MAKES.search(passage.text, max(0, mention.start - 24), mention.start)
        for piece in mention.pieces
    }


def _is_used(
    listed: ListedApparatus,
    pieces: tuple[Piece, ...],
    used: set[str],
    text: str,
    units: set[str],
) -> bool:
    if not pieces:
        word = _last_word(listed.name)
        return word in text or says(text, (*_doing(word), *_meant_for(listed.name)))
    for piece in pieces:
        if piece.personal or piece.sundry:
            return True
        if piece.name in used or used & set(piece.comes_with):
            return True
        stems = tuple(s for s in piece.implied_by if not s.startswith("~"))
        if says(text, stems):
            return True
        if any(s[1:] in units for s in piece.implied_by if s.startswith("~")):
            return True
    return False


@lru_cache(maxsize=512)
def _last_word(name: str) -> str:
    words = re.findall(r"[^\W\d_]{3,}", name.casefold())
    return words[-1].removesuffix("s") if words else name.casefold()


@lru_cache(maxsize=512)
def _doing(tool: str) -> tuple[str, ...]:
    """What a tool that no table knows does by its name: a *grater* grates, a *cutter* cuts."""
    stem = tool.removesuffix("er")
    if stem == tool or len(stem) < _SHORTEST_STEM:
        return ()
    return _singled(stem)


@lru_cache(maxsize=512)
def _meant_for(name: str) -> tuple[str, ...]:
    """What the name of a thing that no table knows says it is for: a *stirring stick*."""
    stems = re.findall(r"\b([^\W\d_]{4,})ing\b", name.casefold())
    return tuple(s for stem in stems for s in _singled(stem))


def _singled(stem: str) -> tuple[str, ...]:
    """A stem, and with its last letter once: *stirr*, *stir*."""
    return (stem, stem[:-1]) if stem[-1] == stem[-2] else (stem,)
